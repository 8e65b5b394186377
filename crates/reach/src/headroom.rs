//! How much more a site carries: stations of each model and metres of cable, run by run and supply
//! by supply, and which limit comes first.
//!
//! Every answer is found by changing a copy of the site and judging it by every rule, halving an
//! interval: so many more work, and one more (one metre more) brings an error that is not there today.
//! Stations are added one behind the other at the end of the run, as far apart as its stations are on
//! average. A free port of a distributor whose other ports feed dwellings is an end as well: its new run is like the first of those, as long to its
//! first station and of the same cable. To a supply they are added at those of its ends that have room, in three ways of which the best counts:
//! a lower bound, since another way may carry more. They are called by whoever
//! calls the run's last dwelling, and ring like any other. The interval is halved, so the answer is the least
//! count that brings an error as far as errors do not go away again when still more is added. What was measured of a run is taken to be
//! that much more for the cable and terminals added to it. Rules that are quick to follow
//! are followed first, and what takes longer is asked only of what they allow.

use crate::judge::Judge;
use latchline_assess::{Assessment, Depth, GivenUp, Memory, Verdict};
use latchline_finding::quantity::{Capacitance, Length, Resistance};
use latchline_finding::{ElementId, Origin, Provenance, Sourced};
use latchline_network::readings::capacitance_f_per_m;
use latchline_network::{Layout, Stage, StageSource};
use latchline_site::catalogue::{Environment, StationKind, loop_ohm_per_km};
use latchline_site::model::{
    Dwelling, MeasuredRun, Run, RunStart, RunStop, Section, Site, Station, StationOwner,
};
use rayon::prelude::*;

/// Most further stations that are asked for.
pub const MOST_MORE: usize = 64;

/// Most further metres that are asked for.
pub const MOST_METRES: usize = 500;

/// Further stations of one model.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct More {
    /// The model.
    pub model: String,
    /// How many more.
    pub stations: usize,
    /// Code of the error that one more would bring; `None` if [`MOST_MORE`] bring none.
    pub limit: Option<&'static str>,
    /// Of a supply, where they are added: runs and free ports, each with how many.
    pub spread: Vec<(ElementId, usize)>,
    /// Of a supply, codes of warnings that so many bring and that are not there today.
    pub warnings: Vec<&'static str>,
}

/// What a new run at a free port is taken to be.
#[derive(Debug, Clone, PartialEq)]
pub struct NewRun {
    /// The run that it is like.
    pub like: ElementId,
    /// Its cable.
    pub cable: String,
    /// Where it runs.
    pub environment: Environment,
    /// Length to its first station in metres.
    pub first_m: f64,
    /// Length from one to the next in metres.
    pub spacing_m: f64,
}

/// Further metres at the end of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct MoreMetres {
    /// How many whole metres more before its last stop.
    pub metres: usize,
    /// Code of the error that one more would bring; `None` if [`MOST_METRES`] bring none.
    pub limit: Option<&'static str>,
}

/// What a run or supply has in hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Headroom {
    /// The run, free port or supply.
    pub id: ElementId,
    /// Further stations of each model of the family that a dwelling can have.
    pub stations: Vec<More>,
    /// Further metres; `None` for a supply or a free port.
    pub metres: Option<MoreMetres>,
    /// Of a free port, what its run is taken to be.
    pub new_run: Option<NewRun>,
}

/// What every run that ends at a dwelling, every free port beside such a run, and every supply has in hand: supplies first, then runs,
/// then ports, in file order. Nothing can be added to a site that fails as it is: then there are none.
pub fn headroom(site: &Site, assessment: &Assessment) -> Vec<Headroom> {
    headroom_while(site, assessment, &Memory::default())
        .expect("work that is wanted whatever happens is not given up")
}

/// As [`headroom`], with what is remembered of the site; given up in the middle when its work is no longer wanted.
///
/// # Errors
/// [`GivenUp`] then.
pub fn headroom_while(
    site: &Site,
    assessment: &Assessment,
    memory: &Memory,
) -> Result<Vec<Headroom>, GivenUp> {
    if assessment.verdict == Verdict::Fails {
        return Ok(Vec::new());
    }
    // Most of a site is the same whatever is added to one run.
    let judge = Judge::new(assessment, memory.clone());
    let models: Vec<&str> = site
        .catalogue
        .stations
        .values()
        .filter(|model| model.family.value == site.family.value && model.kind.value == StationKind::Indoor)
        .map(|model| model.head.name.as_str())
        .collect();
    let ends = ends(site);
    let of_ends: Vec<Headroom> = ends.par_iter().map(|end| of_end(site, &judge, &models, end)).collect();
    let layout = Layout::new(site);
    let mut list: Vec<Headroom> = (0..site.supplies.len())
        .into_par_iter()
        .map(|supply| {
            let own: Vec<(&End, &Headroom)> = ends
                .iter()
                .zip(&of_ends)
                .filter(|(end, _)| feeding_supply(&layout, end.like) == Some(supply))
                .collect();
            of_supply(site, &judge, &models, supply, &own)
        })
        .collect();
    list.extend(of_ends);
    // What was given up in the middle looks like what does not hold.
    memory.check()?;
    Ok(list)
}

/// Where stations may be added.
#[derive(Debug, Clone, Copy)]
pub(crate) struct End {
    /// The run at whose end, or that a new one is like.
    like: usize,
    /// The free port where the new one starts: box and port.
    port: Option<(usize, u32)>,
}

impl End {
    /// The run at whose end it is, or that a new one is like.
    pub fn like_run(&self) -> usize {
        self.like
    }

    /// The run, or the free port.
    pub fn id(&self, site: &Site) -> ElementId {
        match self.port {
            Some((box_index, port)) => site.start_id(RunStart::Port { box_index, port }),
            None => site.runs[self.like].id.clone(),
        }
    }
}

/// The ends of runs that end at dwellings, then the free ports of the boxes where such runs start.
pub(crate) fn ends(site: &Site) -> Vec<End> {
    let runs = (0..site.runs.len()).filter(|run| last_dwelling(site, *run).is_some());
    let mut ends: Vec<End> = runs.map(|like| End { like, port: None }).collect();
    for box_index in 0..site.boxes.len() {
        let from_here = |run: usize| matches!(site.runs[run].from, RunStart::Port { box_index: from, .. } if from == box_index);
        let Some(like) = ends.iter().map(|end| end.like).find(|run| from_here(*run)) else { continue };
        ends.extend(site.free_ports(box_index).map(|port| End { like, port: Some((box_index, port)) }));
    }
    ends
}

/// The supply whose power a run carries.
pub(crate) fn feeding_supply(layout: &Layout, run: usize) -> Option<usize> {
    let mut stage = layout.run_start[run]?.stage;
    loop {
        match layout.stages[stage].source {
            StageSource::Supply(supply) => return Some(supply),
            StageSource::Regenerator(_) => {
                let feeds = |above: &Stage| above.converters.iter().any(|converter| converter.stage == stage);
                stage = layout.stages.iter().position(feeds)?;
            }
        }
    }
}

fn of_end(site: &Site, judge: &Judge, models: &[&str], end: &End) -> Headroom {
    let stations = models
        .iter()
        .map(|model| {
            let (stations, limit) = judge.most(MOST_MORE, |count| {
                let mut changed = site.clone();
                for _ in 0..count {
                    extend(&mut changed, end, model);
                }
                changed
            });
            More { model: (*model).to_string(), stations, limit, ..More::default() }
        })
        .collect();
    if end.port.is_some() {
        let run = &site.runs[end.like];
        let new_run = NewRun {
            like: run.id.clone(),
            cable: run.cable.value.clone(),
            environment: run.environment.value,
            first_m: run.sections[0].length.value.as_metres(),
            spacing_m: spacing(&run.sections).as_metres(),
        };
        return Headroom { id: end.id(site), stations, metres: None, new_run: Some(new_run) };
    }
    let (metres, limit) = judge.most(MOST_METRES, |count| {
        let mut changed = site.clone();
        lengthen(&mut changed, end.like, Length::from_metres(count as f64));
        changed
    });
    let metres = Some(MoreMetres { metres, limit });
    Headroom { id: end.id(site), stations, metres, new_run: None }
}

/// The most stations found under three ways of spreading them over the ends of a supply that have room: end after end, the roomiest first,
/// each up to what it bears alone; in turn, each until it has that many; and in turn, leaving out
/// an end as soon as the wiring does not allow one more there with all before, so that ends behind one port do not fill it twice. The first begins with the roomiest end alone, so the answer
/// is never less than that end's own.
fn of_supply(
    site: &Site,
    judge: &Judge,
    models: &[&str],
    supply: usize,
    ends: &[(&End, &Headroom)],
) -> Headroom {
    let of_model = |(index, model): (usize, &&str)| {
        let room = |(_, headroom): &&(&End, &Headroom)| headroom.stations[index].stations;
        let mut with_room: Vec<&(&End, &Headroom)> = ends.iter().filter(|end| room(end) > 0).collect();
        with_room.sort_by_key(|end| std::cmp::Reverse(room(end)));
        let name = (*model).to_string();
        let Some(roomiest) = with_room.first() else {
            let limit = ends.first().and_then(|(_, headroom)| headroom.stations[index].limit);
            return More { model: name, limit, ..More::default() };
        };
        let after_another = with_room.iter().flat_map(|end| std::iter::repeat_n(end.0, room(end)));
        let rounds = (0..MOST_MORE)
            .flat_map(|round| with_room.iter().filter(move |end| room(end) > round).map(|end| end.0));
        let open: Vec<End> = with_room.iter().map(|end| *end.0).collect();
        let allowed = in_turn(site, judge, &open, model, MOST_MORE, Depth::Wiring);
        let orders: [Vec<&End>; 3] = [
            after_another.take(MOST_MORE).collect(),
            rounds.take(MOST_MORE).collect(),
            allowed.iter().collect(),
        ];
        let with = |order: &[&End]| extended(site, order.iter().copied(), model);
        let found = orders.into_iter().map(|mut order| {
            let (stations, limit) = judge.most(order.len(), |count| with(&order[..count]));
            order.truncate(stations);
            // Full ends are a limit of their own.
            let full = limit.or(roomiest.1.stations[index].limit).filter(|_| stations < MOST_MORE);
            let spread = counted(site, order.iter().copied());
            (More { model: name.clone(), stations, limit: full, spread, warnings: Vec::new() }, order)
        });
        let best = found.reduce(|best, other| if other.0.stations > best.0.stations { other } else { best });
        let alone = &roomiest.1.stations[index];
        let (best, order) = best.filter(|best| best.0.stations >= alone.stations).unwrap_or_else(|| {
            let spread = vec![(roomiest.0.id(site), alone.stations)];
            (More { spread, ..alone.clone() }, vec![roomiest.0; alone.stations])
        });
        More { warnings: judge.new_warnings(&with(&order)), ..best }
    };
    let stations = models.iter().enumerate().map(of_model).collect();
    Headroom { id: site.supplies[supply].id.clone(), stations, metres: None, new_run: None }
}

/// The dwelling at the end of a run, if one is there.
fn last_dwelling(site: &Site, run: usize) -> Option<usize> {
    let RunStop::Station(station) = site.runs[run].sections.last()?.to else { return None };
    match site.stations[station].owner {
        StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
        _ => None,
    }
}

/// The ends at which stations are added in turn, so many at most, each end so long as one more there with all before holds to a depth.
pub(crate) fn in_turn(
    site: &Site,
    judge: &Judge,
    ends: &[End],
    model: &str,
    most: usize,
    depth: Depth,
) -> Vec<End> {
    let mut order: Vec<End> = Vec::new();
    let mut left: Vec<End> = ends.to_vec();
    let mut changed = site.clone();
    let mut at = 0;
    while order.len() < most && !left.is_empty() {
        at %= left.len();
        let mut more = changed.clone();
        extend(&mut more, &left[at], model);
        if judge.holds(&more, depth) {
            changed = more;
            order.push(left[at]);
            at += 1;
        } else {
            left.remove(at);
        }
    }
    order
}

/// The site with a dwelling more at each of these ends, one after the other.
pub(crate) fn extended<'e>(site: &Site, order: impl Iterator<Item = &'e End>, model: &str) -> Site {
    let mut changed = site.clone();
    order.for_each(|end| extend(&mut changed, end, model));
    changed
}

/// How many dwellings are added at each end, in the order in which the ends come first.
pub(crate) fn counted<'e>(site: &Site, order: impl Iterator<Item = &'e End>) -> Vec<(ElementId, usize)> {
    let mut counts: Vec<(ElementId, usize)> = Vec::new();
    for end in order {
        let id = end.id(site);
        match counts.iter_mut().find(|(known, _)| *known == id) {
            Some((_, count)) => *count += 1,
            None => counts.push((id, 1)),
        }
    }
    counts
}

/// Adds a dwelling at an end; at a free port the first one begins its run.
fn extend(site: &mut Site, end: &End, model: &str) {
    let spacing = spacing(&site.runs[end.like].sections);
    let Some((box_index, port)) = end.port else { return extend_run(site, end.like, model, spacing) };
    let from = RunStart::Port { box_index, port };
    if let Some(run) = site.runs.iter().position(|run| run.from == from) {
        return extend_run(site, run, model, spacing);
    }
    let Some(like) = last_dwelling(site, end.like) else { return };
    let station = add_dwelling(site, like, model);
    let old = &site.runs[end.like];
    let first = old.sections[0].length.value;
    let run = Run {
        id: ElementId::from(format!("headroom-{}", site.start_id(from))),
        from,
        sections: vec![section(station, first)],
        existing: Sourced::new(false, Origin::None, Provenance::Stated),
        measured: MeasuredRun::default(),
        ..old.clone()
    };
    site.runs.push(run);
}

/// Adds a dwelling at the end of a run.
fn extend_run(site: &mut Site, run: usize, model: &str, spacing: Length) {
    let Some(like) = last_dwelling(site, run) else { return };
    let station = add_dwelling(site, like, model);
    site.runs[run].sections.push(section(station, spacing));
    let terminals =
        Resistance::from_ohms(site.runs[run].terminals_ohm(site.conditions.joint_resistance.value));
    measure_again(site, run, spacing, terminals);
}

/// Makes the last section of a run longer.
fn lengthen(site: &mut Site, run: usize, by: Length) {
    let Some(section) = site.runs[run].sections.last_mut() else { return };
    section.length.value += by;
    measure_again(site, run, by, Resistance::from_ohms(0.0));
}

/// What was measured of a run as it would be with more of its cable at the end, which is taken to be as its data sheet says: without
/// this the longer run would be held to the readings of the shorter one.
fn measure_again(site: &mut Site, run: usize, more: Length, terminals: Resistance) {
    let cable = site.cable(&site.runs[run]);
    let celsius = site.conditions.usual_temperature.value.as_celsius();
    let loop_ohm_per_m = loop_ohm_per_km(cable, celsius) / 1e3;
    let farad_per_m = capacitance_f_per_m(&site.runs[run], cable);
    let run = &mut site.runs[run];
    let pairs = run.pairs_in_parallel();
    if let Some(measured) = &mut run.measured.loop_resistance {
        let cable_ohm = more.as_metres() * loop_ohm_per_m / pairs;
        measured.value = Resistance::from_ohms(measured.value.as_ohms() + cable_ohm + terminals.as_ohms());
    }
    // Where the data sheet has none, the rest of the cable is as what was measured.
    let before_m = (run.length() - more).as_metres();
    if let Some(measured) = &mut run.measured.capacitance {
        let measured_f = measured.value.as_farads();
        let more_f = more.as_metres() * farad_per_m.unwrap_or(measured_f / before_m);
        measured.value = Capacitance::from_farads(measured_f + more_f);
    }
}

/// How far apart the stations of a run are on average; the way to the first where there is one alone.
fn spacing(sections: &[Section]) -> Length {
    let beyond_first = sections.get(1..).unwrap_or_default();
    let between: &[Section] = if beyond_first.is_empty() { sections } else { beyond_first };
    let total: f64 = between.iter().map(|section| section.length.value.as_metres()).sum();
    Length::from_metres(total / between.len().max(1) as f64)
}

fn section(station: usize, length: Length) -> Section {
    Section {
        to: RunStop::Station(station),
        to_origin: Origin::None,
        length: Sourced::new(length, Origin::None, Provenance::Stated),
    }
}

/// Adds a dwelling with one station; returns the station.
fn add_dwelling(site: &mut Site, like: usize, model: &str) -> usize {
    let dwelling = site.dwellings.len();
    let station = site.stations.len();
    let id = ElementId::from(format!("headroom-{}", dwelling + 1));
    site.stations.push(Station {
        id: id.clone(),
        model: Sourced::new(model.to_string(), Origin::None, Provenance::Stated),
        owner: StationOwner::Dwelling { dwelling, ordinal: 0 },
        origin: Origin::None,
    });
    let place = site.dwellings[like].place.clone();
    site.dwellings.push(Dwelling {
        id,
        label: None,
        place,
        number: None,
        stations: vec![station],
        origin: Origin::None,
    });
    let calls_like = |dwellings: &[usize]| dwellings.contains(&like);
    for entrance in &mut site.entrances {
        if calls_like(&entrance.calls.dwellings) {
            entrance.calls.dwellings.push(dwelling);
        }
    }
    for management in &mut site.management {
        if calls_like(&management.calls.dwellings) {
            management.calls.dwellings.push(dwelling);
        }
    }
    station
}
