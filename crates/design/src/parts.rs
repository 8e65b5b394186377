//! Parts of the catalogue as planning takes them: prices with labour, loads, resistances.

use crate::draw::draw;
use crate::electric::{Draw, StationLoad};
use crate::money::{Amount, amount};
use crate::obstacle::Obstacle;
use latchline_assess::rules::insulation_too_low::LEAST_OHM;
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_site::catalogue::{
    BoxKind, BoxModel, Cable, Catalogue, Environment, Family, Material, PartHead, SupplyModel,
};
use latchline_site::model::USUAL_JOINT_OHM;
use latchline_survey::model::ExistingCable;
use latchline_survey::{Decision, Survey};
use latchline_words::design::UnknownPart;
use std::collections::BTreeMap;

/// A cable that may be pulled.
#[derive(Debug, Clone, PartialEq)]
pub struct Wire {
    /// Name in the catalogue.
    pub name: String,
    /// Cost of a tenth of a metre.
    pub per_dm: Amount,
    /// Loop resistance per metre in the adverse corner.
    pub ohm_per_m: f64,
    /// Where it may run.
    pub environments: Vec<Environment>,
    /// Its pairs.
    pub pairs: u32,
    /// Whether only a locked decision lets it be pulled, for those whom that is about.
    pub only_where_locked: bool,
}

/// A cable in the walls.
#[derive(Debug, Clone, PartialEq)]
pub struct InWall {
    /// Index into the survey's list.
    pub index: usize,
    /// Name of the cable.
    pub cable: String,
    /// Length in tenths of a metre.
    pub length_dm: u32,
    /// Adverse loop resistance in ohms.
    pub ohm: f64,
}

/// A distributor that may be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Distributor {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Series resistance to a port.
    pub port_ohm: f64,
    /// Current limit of a port.
    pub limit_a: f64,
    /// Regenerated: low end of its voltage, resistance behind it, output power, efficiency.
    pub regenerated: Option<Regenerated>,
    /// Own consumption.
    pub own: Draw,
}

/// What a regenerating distributor gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Regenerated {
    /// Low end of its output voltage.
    pub voltage_v: f64,
    /// Resistance behind it.
    pub ohm: f64,
    /// Output power.
    pub power_w: f64,
    /// Efficiency.
    pub efficiency: f64,
}

/// An isolating box: begins every bus beside the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Isolator {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Current limit of a port.
    pub limit_a: f64,
}

/// A branch box that may be used: divides a run without regenerating it.
#[derive(Debug, Clone, PartialEq)]
pub struct BranchModel {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Series resistance to a port.
    pub port_ohm: f64,
    /// Its own consumption, with the least voltage that it needs.
    pub load: StationLoad,
}

/// A supply that may be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Name in the catalogue.
    pub name: String,
    /// Cost with labour.
    pub cost: Amount,
    /// Low end of its voltage.
    pub voltage_v: f64,
    /// Resistance behind it.
    pub ohm: f64,
    /// Rated current, and rated power at the low end of the voltage as current: the smaller.
    pub rated_a: f64,
    /// Output terminals.
    pub outputs: usize,
}

/// Error of a loop resistance measured on site, as the assessment takes it.
const MEASURED: f64 = latchline_network::resistance::MEASUREMENT_TOLERANCE;

/// Whether a part is withdrawn: not bought any more, and replaced where it is installed.
pub fn is_withdrawn(survey: &Survey, name: &str) -> bool {
    survey.settings.withdrawn.iter().any(|part| part.value == name)
}

/// Cost of a part; `None` without a price, or if it is withdrawn.
pub fn cost_of(head: &PartHead, survey: &Survey) -> Option<Amount> {
    if is_withdrawn(survey, &head.name) {
        return None;
    }
    let minutes = head.labour_minutes.as_ref().map_or(0.0, |minutes| minutes.value);
    Some(amount(head.price.as_ref()?.value, minutes, survey.settings.labour_per_hour))
}

/// Cables that may be pulled, cheapest first, without those that a cheaper one is better than.
pub fn wires(survey: &Survey, catalogue: &Catalogue, family: &Family) -> Vec<Wire> {
    let settings = &survey.settings;
    // Without a list: copper only (who wants clad aluminium says so), and only cable whose signal can be judged.
    let judges_signal = !family.signal_bands.is_empty();
    let locked: Vec<&str> = survey
        .locked
        .iter()
        .filter_map(|locked| match &locked.decision {
            Decision::Cable { cable, .. } => cable.as_ref().map(|cable| cable.value.as_str()),
            _ => None,
        })
        .collect();
    let is_locked = |cable: &Cable| locked.contains(&cable.head.name.as_str());
    let wanted = |cable: &Cable| {
        if settings.cables.is_empty() {
            cable.material.value == Material::Copper && (cable.line.is_some() || !judges_signal)
        } else {
            settings.cables.iter().any(|name| name.value == cable.head.name)
        }
    };
    let mut wires: Vec<Wire> = catalogue
        .cables
        .values()
        .filter(|cable| wanted(cable) || is_locked(cable))
        .filter_map(|cable| {
            let per_m = cost_of(&cable.head, survey)?;
            let tolerance = 1.0 + cable.resistance_tolerance.value.as_fraction();
            let ohm_per_m = conductor_ohm_per_m(cable, settings.hottest_c.value)
                * 2.0
                * tolerance
                * (1.0 + settings.length_tolerance.value);
            Some(Wire {
                name: cable.head.name.clone(),
                per_dm: per_m / 10,
                ohm_per_m,
                environments: cable.environments.value.clone(),
                pairs: cable.pairs.value,
                only_where_locked: !wanted(cable),
            })
        })
        .collect();
    // What only a decision lets be pulled comes last: it is the first choice of nothing.
    wires.sort_by(|a, b| {
        (a.only_where_locked.cmp(&b.only_where_locked).then(a.per_dm.cmp(&b.per_dm)))
            .then(a.ohm_per_m.total_cmp(&b.ohm_per_m))
            .then(a.name.cmp(&b.name))
    });
    let mut kept: Vec<Wire> = Vec::new();
    for wire in wires {
        let beaten = kept.iter().any(|other| {
            other.ohm_per_m <= wire.ohm_per_m
                && wire.environments.iter().all(|environment| other.environments.contains(environment))
        });
        if !beaten || locked.contains(&wire.name.as_str()) {
            kept.push(wire);
        }
    }
    kept
}

/// Cables in the walls whose insulation is too low for any use: new cable is pulled beside them.
pub fn damaged(survey: &Survey) -> impl Iterator<Item = &ExistingCable> {
    survey.existing.iter().filter(|known| is_damaged(known))
}

/// Whether its insulation is too low for any use.
pub fn is_damaged(known: &ExistingCable) -> bool {
    known.insulation_mohm.is_some_and(|mohm| mohm * 1e6 < LEAST_OHM)
}

/// Cables in the walls by the names of their ends.
pub fn in_walls(
    survey: &Survey,
    catalogue: &Catalogue,
) -> Result<BTreeMap<String, BTreeMap<String, InWall>>, Obstacle> {
    let settings = &survey.settings;
    let mut map = BTreeMap::new();
    for (index, known) in survey.existing.iter().enumerate() {
        let Some(cable) = catalogue.cables.get(&known.cable.value) else {
            let name = known.cable.value.clone();
            return Err(Obstacle::UnknownPart { part: UnknownPart::Cable, name });
        };
        if is_damaged(known) {
            continue;
        }
        let Some(length_m) = known.length_m(cable, settings.usual_c.value) else { continue };
        let (hot, usual) = (
            conductor_ohm_per_m(cable, settings.hottest_c.value),
            conductor_ohm_per_m(cable, settings.usual_c.value),
        );
        let ohm = match known.loop_ohm {
            Some(ohm) => ohm * hot / usual * (1.0 + MEASURED),
            None => {
                let tolerance = 1.0 + cable.resistance_tolerance.value.as_fraction();
                2.0 * hot * tolerance * (1.0 + settings.length_tolerance.value) * length_m
                    + 4.0 * USUAL_JOINT_OHM
            }
        };
        let length_dm = (length_m * 10.0).round().max(1.0) as u32;
        let wall = InWall { index, cable: known.cable.value.clone(), length_dm, ohm };
        let (from, to) = (&known.from.value, &known.to.value);
        for (here, there) in [(to, from), (from, to)] {
            map.entry(here.clone()).or_insert_with(BTreeMap::new).insert(there.clone(), wall.clone());
        }
    }
    Ok(map)
}

/// A distributor with its cost; `None` without a price.
pub fn distributor(model: &BoxModel, survey: &Survey) -> Option<Distributor> {
    let regenerated = (model.kind.value == BoxKind::Regenerated).then(|| {
        let volts = model.output_voltage.as_ref().map_or(0.0, |voltage| voltage.value.as_volts());
        let tolerance = model.output_tolerance.as_ref().map_or(0.0, |ratio| ratio.value.as_fraction());
        Regenerated {
            voltage_v: volts * (1.0 - tolerance),
            ohm: model.output_resistance.as_ref().map_or(0.0, |ohm| ohm.value.as_ohms()),
            power_w: model.output_power.as_ref().map_or(f64::INFINITY, |power| power.value.as_watts()),
            efficiency: model.efficiency.as_ref().map_or(1.0, |ratio| ratio.value.as_fraction()),
        }
    });
    let least_v = model.least_voltage.as_ref().map_or(0.0, |least| least.value.as_volts());
    Some(Distributor {
        name: model.head.name.clone(),
        ports: model.ports.value as usize,
        cost: cost_of(&model.head, survey)?,
        port_ohm: model.port_resistance.value.as_ohms(),
        limit_a: model.port_current_limit.as_ref().map_or(f64::INFINITY, |limit| limit.value.as_amps()),
        regenerated,
        own: model.consumption.as_ref().map_or(Draw::default(), |own| {
            draw(own.value, 1.0 + model.load_tolerance.value.as_fraction(), least_v)
        }),
    })
}

/// A branch box with its cost; `None` without a price.
pub fn branch_box(model: &BoxModel, survey: &Survey) -> Option<BranchModel> {
    let least_v = model.least_voltage.as_ref().map_or(0.0, |least| least.value.as_volts());
    let own = model.consumption.as_ref().map_or(Draw::default(), |own| {
        draw(own.value, 1.0 + model.load_tolerance.value.as_fraction(), least_v)
    });
    Some(BranchModel {
        name: model.head.name.clone(),
        ports: model.ports.value as usize,
        cost: cost_of(&model.head, survey)?,
        port_ohm: model.port_resistance.value.as_ohms(),
        load: StationLoad::of_box(own, least_v),
    })
}

/// An isolating box with its cost; `None` without a price.
pub fn isolator(model: &BoxModel, survey: &Survey) -> Option<Isolator> {
    Some(Isolator {
        name: model.head.name.clone(),
        ports: model.ports.value as usize,
        cost: cost_of(&model.head, survey)?,
        limit_a: model.port_current_limit.as_ref().map_or(f64::INFINITY, |limit| limit.value.as_amps()),
    })
}

/// A supply with its cost; `None` without a price.
pub fn supply(model: &SupplyModel, survey: &Survey) -> Option<Supply> {
    let voltage_v = model.voltage.value.as_volts() * (1.0 - model.voltage_tolerance.value.as_fraction());
    let by_power = model
        .rated_power
        .as_ref()
        .map_or(f64::INFINITY, |power| power.value.as_watts() / voltage_v.max(1e-3));
    Some(Supply {
        name: model.head.name.clone(),
        cost: cost_of(&model.head, survey)?,
        voltage_v,
        ohm: model.source_resistance.value.as_ohms(),
        rated_a: model.rated_current.value.as_amps().min(by_power),
        outputs: model.most_runs().unwrap_or(1),
    })
}
