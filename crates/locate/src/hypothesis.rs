//! Every single cause that a site can have, each from the generator of its kind.

use crate::effect::Effect;
use crate::kind::{Cause, Element, Kind};
use crate::plant::Plant;
use crate::rates::{Age, Rates};
use latchline_network::NodeRef;
use latchline_site::catalogue::{LoopThrough, Material, StationKind};

/// A cause with what is known of it before anything is read.
#[derive(Debug, Clone)]
pub struct Hypothesis {
    /// The cause.
    pub cause: Cause,
    /// Prior probability.
    pub prior: f64,
    /// Lowest and highest size, for causes with one; every decade is as likely.
    pub range: Option<(f64, f64)>,
    /// Node that it acts at, for causes that act on the flow.
    pub at: Option<NodeRef>,
}

/// Series resistance of a short of no resistance worth naming, in ohms (assumed).
const HARD_SHORT_OHM: f64 = 0.05;

/// Capacitance of a metre of stub whose cable is not in the catalogue, in farads (assumed).
const STUB_F_PER_M: f64 = 55e-12;

/// Every single cause of a site, with prior probabilities that add up to 1 less that of none of these.
pub fn hypotheses(plant: &Plant<'_>, rates: &Rates, age: Age) -> Vec<Hypothesis> {
    let mut all = Vec::new();
    for (kind, rate) in &rates.kinds {
        let prior = rates.prior(*kind, age);
        let places = elements(plant, *kind);
        let total: f64 = places.iter().map(|(_, weight)| weight).sum();
        for (element, weight) in places {
            let cause = Cause { kind: *kind, element };
            let at = node_of(plant, cause);
            all.push(Hypothesis { cause, prior: prior * weight / total, range: rate.range, at });
        }
    }
    // A kind that the site cannot have leaves its share to the others.
    let sum: f64 = all.iter().map(|one| one.prior).sum();
    for one in &mut all {
        one.prior *= (1.0 - rates.none_of_these) / sum;
    }
    all
}

/// Elements that a kind can concern, with weights.
fn elements(plant: &Plant<'_>, kind: Kind) -> Vec<(Element, f64)> {
    let site = plant.site;
    let sections = |weight: &dyn Fn(usize, usize) -> f64| -> Vec<(Element, f64)> {
        let mut list = Vec::new();
        for (run, places) in plant.section.iter().enumerate() {
            for (section, at) in places.iter().enumerate() {
                let weight = weight(run, section);
                if at.is_some() && weight > 0.0 {
                    list.push((Element::Section { run, section }, weight));
                }
            }
        }
        list
    };
    let length = |run: usize, section: usize| site.runs[run].sections[section].length.value.as_metres();
    let runs = |keep: &dyn Fn(usize) -> bool| -> Vec<(Element, f64)> {
        let kept = (0..site.runs.len()).filter(|run| plant.run_stage[*run].is_some() && keep(*run));
        kept.map(|run| (Element::Run(run), 1.0)).collect()
    };
    let stations = |keep: &dyn Fn(usize) -> bool| -> Vec<(Element, f64)> {
        let fed =
            (0..site.stations.len()).filter(|index| plant.layout.station[*index].is_some() && keep(*index));
        fed.map(|index| (Element::Station(index), 1.0)).collect()
    };
    let is_door = |index: usize| site.station_model(&site.stations[index]).kind.value == StationKind::Door;
    let is_indoor = |index: usize| !is_door(index);
    let entrances = |keep: &dyn Fn(usize) -> bool| -> Vec<(Element, f64)> {
        (0..site.entrances.len())
            .filter(|index| keep(*index))
            .map(|index| (Element::Entrance(index), 1.0))
            .collect()
    };
    let is_measured = |run: usize| site.runs[run].measured.loop_resistance.is_some();
    match kind {
        // Terminals and handled cable: as likely in every section.
        Kind::Joint | Kind::Open | Kind::Reversed | Kind::ShortResistive => sections(&|_, _| 1.0),
        // Half at the terminals, half along the way.
        Kind::Short | Kind::Leakage => sections(&|run, section| 1.0 + 0.1 * length(run, section)),
        Kind::PairLegOpen => sections(&|run, _| if site.runs[run].pairs.value > 1 { 1.0 } else { 0.0 }),
        // A loop that was measured is as long and as thick as it was measured.
        Kind::LongerRun => {
            sections(&|run, section| if is_measured(run) { 0.0 } else { 1.0 + 0.05 * length(run, section) })
        }
        Kind::ThinConductor => runs(&|run| !is_measured(run)),
        Kind::CladAluminium => {
            runs(&|run| !is_measured(run) && site.cable(&site.runs[run]).material.value == Material::Copper)
        }
        Kind::SplitPair | Kind::BridgedTap | Kind::LegToEarth | Kind::WrongPort => runs(&|_| true),
        Kind::TerminatorMissing => {
            let required = site.family().terminator_required.value;
            runs(&|run| required || site.runs[run].terminator.as_ref().is_some_and(|set| set.value))
        }
        Kind::TerminatorExtra => runs(&|_| site.family().terminator_resistance.is_some()),
        Kind::TerminatorDirect => runs(&|run| {
            site.family().terminator_resistance.is_some()
                && (site.family().terminator_required.value
                    || site.runs[run].terminator.as_ref().is_some_and(|set| set.value))
        }),
        Kind::InAndOut => sections(&|run, section| {
            if section + 1 < site.runs[run].sections.len() { 1.0 } else { 0.0 }
        }),
        Kind::SettingWrong | Kind::SettingDuplicate | Kind::ForeignFamily => stations(&|_| true),
        Kind::StationDead
        | Kind::StationOverdraw
        | Kind::StationRemoved
        | Kind::RingerMuted
        | Kind::HandsetFailed => stations(&is_indoor),
        Kind::DisplayFailed => stations(&|index| {
            is_indoor(index)
                && site.station_model(&site.stations[index]).media.value
                    == latchline_site::catalogue::Media::Video
        }),
        Kind::DoorStationDead | Kind::DoorOverdraw | Kind::ButtonFailed | Kind::MicrophoneFailed => {
            stations(&is_door)
        }
        Kind::CameraFailed => stations(&|index| {
            is_door(index)
                && site.station_model(&site.stations[index]).media.value
                    == latchline_site::catalogue::Media::Video
        }),
        Kind::LockCircuit | Kind::LockDiode | Kind::DoorBinding => {
            entrances(&|index| !site.entrances[index].locks.is_empty())
        }
        Kind::ExitButton => {
            entrances(&|index| site.entrances[index].locks.iter().any(|lock| lock.exit_button.value))
        }
        Kind::SupplyDead | Kind::SupplyLow | Kind::SupplySoft => {
            (0..site.supplies.len()).map(|index| (Element::Supply(index), 1.0)).collect()
        }
        Kind::BatteryAged => (0..site.supplies.len())
            .filter(|index| site.supply_model(&site.supplies[*index]).battery.is_some())
            .map(|index| (Element::Supply(index), 1.0))
            .collect(),
        Kind::BoxDead => (0..site.boxes.len())
            .filter(|index| plant.layout.box_input[*index].is_some())
            .map(|index| (Element::Box(index), 1.0))
            .collect(),
        Kind::PortDead => {
            let mut list = Vec::new();
            for stage in &plant.layout.stages {
                for terminal in &stage.terminal {
                    if let latchline_network::StageNode::Port { box_index, port } = *terminal {
                        list.push((Element::Port { box_index, port }, 1.0));
                    }
                }
            }
            list
        }
        Kind::DesignAsDrawn => vec![(Element::Site, 1.0)],
    }
}

fn node_of(plant: &Plant<'_>, cause: Cause) -> Option<NodeRef> {
    match cause.element {
        Element::Section { run, section } => plant.section[run][section],
        Element::Run(run) => plant.layout.run_end[run],
        Element::Station(index) => plant.layout.station[index],
        Element::Box(index) => plant.layout.box_input[index],
        Element::Port { .. } | Element::Supply(_) => {
            cause.element.place(plant.site).and_then(|place| crate::predict::node(plant, place))
        }
        Element::Entrance(index) => plant.layout.station[plant.site.entrances[index].station],
        Element::Site => None,
    }
}

impl Hypothesis {
    /// What the cause does to the network, at a size. Causes that no meter sees do nothing.
    pub fn effects(&self, plant: &Plant<'_>, size: f64) -> Vec<Effect> {
        let site = plant.site;
        let Some(at) = self.at else { return Vec::new() };
        match (self.cause.kind, self.cause.element) {
            (Kind::Joint, _) => vec![Effect::Series { at, ohm: size }],
            (Kind::Open, _) => vec![Effect::Open { at }],
            // Of p pairs side by side p - 1 legs are left on one side.
            (Kind::PairLegOpen, Element::Section { run, .. }) => {
                let pairs = f64::from(site.runs[run].pairs.value.max(2));
                vec![Effect::Longer { at, factor: 0.5 + 0.5 * pairs / (pairs - 1.0) }]
            }
            (Kind::Short, _) => vec![Effect::Across { at, position: size, siemens: 1.0 / HARD_SHORT_OHM }],
            (Kind::ShortResistive | Kind::Leakage, _) => {
                vec![Effect::Across { at, position: 1.0, siemens: 1.0 / size }]
            }
            (Kind::Reversed, _) => reversed(plant, at),
            (Kind::LongerRun, _) => vec![Effect::Longer { at, factor: size }],
            (Kind::ThinConductor | Kind::CladAluminium, Element::Run(run)) => {
                vec![Effect::Conductors { run, factor: size }]
            }
            (Kind::BridgedTap, Element::Run(run)) => {
                let per_m = latchline_network::readings::capacitance_f_per_m(
                    &site.runs[run],
                    site.cable(&site.runs[run]),
                );
                vec![Effect::Capacitance { run, farad: size * per_m.unwrap_or(STUB_F_PER_M) }]
            }
            (Kind::LegToEarth, Element::Run(run)) => vec![Effect::Earth { run, siemens: 1.0 / size }],
            (Kind::TerminatorDirect, _) => {
                let ohm =
                    site.family().terminator_resistance.as_ref().map_or(100.0, |value| value.value.as_ohms());
                vec![Effect::Across { at, position: 1.0, siemens: 1.0 / ohm }]
            }
            (Kind::StationOverdraw | Kind::DoorOverdraw, _) => vec![Effect::Extra { at, watt: size }],
            (Kind::StationDead | Kind::DoorStationDead, _) => vec![Effect::NoLoad { at }],
            (Kind::StationRemoved, Element::Station(index)) => removed(plant, at, index),
            (Kind::SupplyDead, _) => vec![Effect::Dead { stage: at.stage }],
            (Kind::SupplyLow, _) => vec![Effect::SourceVoltage { stage: at.stage, factor: size }],
            (Kind::SupplySoft, _) => vec![Effect::SourceResistance { stage: at.stage, ohm: size }],
            (Kind::PortDead, _) => vec![Effect::Open { at }],
            (Kind::BoxDead, Element::Box(index)) => box_dead(plant, at, index),
            _ => Vec::new(),
        }
    }

    /// Whether it changes any voltage, current or reading of a run alone.
    pub fn is_electrical(&self, plant: &Plant<'_>) -> bool {
        let middle = self.range.map_or(0.0, |(low, high)| (low * high).sqrt());
        !self.effects(plant, middle).is_empty()
    }

    /// Whether its size stands for a place along a section.
    pub fn size_is_position(&self) -> bool {
        self.cause.kind == Kind::Short
    }

    /// Whether it concerns a place: it lies on the way to it, or is there.
    pub fn concerns(&self, plant: &Plant<'_>, place: NodeRef) -> bool {
        let layout = plant.layout;
        let on_way = |at: NodeRef| {
            at.stage == place.stage
                && (at.node..layout.stages[at.stage].subtree_end[at.node] as usize).contains(&place.node)
        };
        match self.cause.element {
            Element::Site => true,
            Element::Station(_) | Element::Entrance(_) => self.at == Some(place),
            Element::Run(run) => layout.run_start[run].is_some_and(|start| {
                start.stage == place.stage && {
                    let end = layout.stages[start.stage].subtree_end[start.node] as usize;
                    (start.node..end).contains(&place.node)
                }
            }),
            _ => self.at.is_some_and(on_way) || self.feeds(plant, place.stage),
        }
    }

    /// Whether a stage draws its power from beyond it.
    fn feeds(&self, plant: &Plant<'_>, stage: usize) -> bool {
        let Some(at) = self.at else { return false };
        let end = plant.layout.stages[at.stage].subtree_end[at.node] as usize;
        plant.layout.stages[at.stage].converters.iter().any(|converter| {
            (at.node..end).contains(&converter.node)
                && plant.layout.with_stages_below(converter.stage).contains(&stage)
        })
    }
}

/// Behind a reversed pair a station without bridge rectifier draws nothing.
fn reversed(plant: &Plant<'_>, at: NodeRef) -> Vec<Effect> {
    let stage = plant.layout.stage(at);
    let mut effects = vec![Effect::Reversed { at }];
    for node in at.node..stage.subtree_end[at.node] as usize {
        if let latchline_network::StageNode::Station(index) = stage.terminal[node] {
            let model = plant.site.station_model(&plant.site.stations[index]);
            if model.rectifier_drop.is_none() {
                effects.push(Effect::NoLoad { at: NodeRef { stage: at.stage, node } });
            }
        }
    }
    effects
}

/// A station in series opens all beyond it when it is taken off.
fn removed(plant: &Plant<'_>, at: NodeRef, station: usize) -> Vec<Effect> {
    let model = plant.site.station_model(&plant.site.stations[station]);
    let mut effects = vec![Effect::NoLoad { at }];
    if model.loop_through.value == LoopThrough::Series {
        let stage = plant.layout.stage(at);
        let beyond = (at.node + 1..stage.subtree_end[at.node] as usize)
            .filter(|node| stage.parent[*node] as usize == at.node)
            .map(|node| Effect::Open { at: NodeRef { stage: at.stage, node } });
        effects.extend(beyond);
    }
    effects
}

fn box_dead(plant: &Plant<'_>, at: NodeRef, index: usize) -> Vec<Effect> {
    let mut effects = vec![Effect::NoLoad { at }];
    let stage = plant.layout.stage(at);
    for node in at.node + 1..stage.subtree_end[at.node] as usize {
        if matches!(stage.terminal[node], latchline_network::StageNode::Port { box_index, .. } if box_index == index)
        {
            effects.push(Effect::Open { at: NodeRef { stage: at.stage, node } });
        }
    }
    let fed = stage.converters.iter().filter(|converter| converter.node == at.node);
    effects.extend(fed.map(|converter| Effect::Dead { stage: converter.stage }));
    effects
}
