//! The largest chain for one spacing and feeder length, and tables of them.

use crate::bare_site::{BareSite, BareSiteError};
use crate::question::{MOST_STATIONS, Question};
use latchline_assess::Depth;
use latchline_assess::rules::codes;
use latchline_finding::{Code, Sources};
use latchline_network::{Layout, SearchOptions, StageSource};
use latchline_network::{StateSpace, worst_states};
use latchline_site::LoadedCatalogues;
use latchline_site::model::Site;
use rayon::prelude::*;

/// What keeps the chain from being longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReachLimit {
    /// A device would fall below its least voltage.
    Voltage,
    /// The bus would collapse.
    Collapse,
    /// The port would give more than its limit.
    PortCurrent,
    /// The supply would give more than it is rated for.
    SupplyCurrent,
    /// The family's count of stations on a port, or the station's count on a supply.
    Count,
    /// The family's longest run or total length.
    Length,
    /// Signals would be too weak, or uneven.
    Signal,
    /// The supply would not start it when power returns.
    StartUp,
    /// A short circuit would not be told from what is drawn, or not be cleared.
    ShortCircuit,
    /// Another rule of the check would find an error.
    OtherRule,
    /// It could not be decided whether one more works.
    Undecided,
    /// Nothing up to [`MOST_STATIONS`].
    None,
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Distance from station to station in metres.
    pub spacing_m: f64,
    /// Length of cable from the port to the first station in metres.
    pub feeder_m: f64,
    /// Most stations that work; 0 if no number of them does.
    pub stations: usize,
    /// What would go wrong with one more.
    pub limit: ReachLimit,
    /// Smaller numbers of stations that do not work, the least first: a signal may pass with more stations and not with fewer.
    pub fewer_fail: Vec<usize>,
    /// Margin of the chain's worst device with that many stations, in volts; `None` for none.
    pub margin_v: Option<f64>,
}

/// The largest chain at one spacing and feeder length.
///
/// What is solved fails for good once it fails, so an interval is halved for it; of what that leaves, every number of stations is asked of
/// every rule, since signals and start-up know no such order.
pub fn largest_chain(bare: &BareSite, spacing_m: f64, feeder_m: f64) -> Cell {
    let judge = |stations: usize| judge(bare, stations, spacing_m, feeder_m);
    let (mut solved, mut fails) = (0, MOST_STATIONS + 1);
    let mut limit = ReachLimit::None;
    while fails - solved > 1 {
        let middle = solved.midpoint(fails);
        match judge(middle) {
            Ok(_) => solved = middle,
            Err(reason) => {
                fails = middle;
                limit = reason;
            }
        }
    }
    let holds = |stations: &usize| {
        bare.judge().holds(&bare.with_chain(*stations, spacing_m, feeder_m), Depth::Everything)
    };
    let works: Vec<usize> = (1..=solved).filter(holds).collect();
    let stations = works.last().copied().unwrap_or(0);
    if stations < solved {
        let code = bare.judge().first_new(&bare.with_chain(stations + 1, spacing_m, feeder_m));
        limit = code.map_or(ReachLimit::Undecided, of_code);
    }
    let margin_v = works.last().and_then(|stations| judge(*stations).ok());
    let fewer_fail = (1..stations).filter(|fewer| !works.contains(fewer)).collect();
    Cell { spacing_m, feeder_m, stations, limit, fewer_fail, margin_v }
}

/// The limit that an error of the check stands for.
fn of_code(code: &str) -> ReachLimit {
    let is_one_of = |codes: &[Code]| codes.iter().any(|one| one.as_str() == code);
    if is_one_of(&[
        codes::SIGNAL_TOO_WEAK,
        codes::SIGNAL_NOTCH,
        codes::SIGNAL_RIPPLE,
        codes::SUPPLY_SHORTS_SIGNAL,
    ]) {
        ReachLimit::Signal
    } else if is_one_of(&[codes::START_UP_FAILS, codes::START_UP_HICCUPS]) {
        ReachLimit::StartUp
    } else if is_one_of(&[
        codes::SHORT_CIRCUIT_NOT_DETECTED,
        codes::SHORT_CIRCUIT_NOT_CLEARED,
        codes::TRIP_BELOW_LEGITIMATE_CURRENT,
    ]) {
        ReachLimit::ShortCircuit
    } else {
        ReachLimit::OtherRule
    }
}

/// What the check could not judge of chains of this cable, for lack of values: codes of its rules.
pub fn not_judged(bare: &BareSite) -> Vec<Code> {
    let assessment = latchline_assess::assess(&bare.with_chain(2, 5.0, 5.0));
    let mut codes: Vec<Code> = assessment.not_judged.iter().map(|entry| entry.code).collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

/// Every combination of spacings and feeder lengths, spacing by spacing.
pub fn table(bare: &BareSite, spacings_m: &[f64], feeders_m: &[f64]) -> Vec<Cell> {
    let pairs: Vec<(f64, f64)> = spacings_m
        .iter()
        .flat_map(|spacing| feeders_m.iter().map(move |feeder| (*spacing, *feeder)))
        .collect();
    pairs.par_iter().map(|(spacing_m, feeder_m)| largest_chain(bare, *spacing_m, *feeder_m)).collect()
}

/// [`table`] for each of several cables, in their order.
///
/// # Errors
/// If the question's parts do not make a site.
pub fn tables(
    sources: &Sources,
    catalogues: &LoadedCatalogues,
    question: &Question,
    cables: &[String],
    calls: usize,
    spacings_m: &[f64],
    feeders_m: &[f64],
) -> Result<Vec<Vec<Cell>>, BareSiteError> {
    cables
        .par_iter()
        .map(|cable| {
            let bare = BareSite::new(sources, catalogues, question, cable, calls)?;
            Ok(table(&bare, spacings_m, feeders_m))
        })
        .collect()
}

/// The margin of the worst device on the chain, or what is wrong.
fn judge(bare: &BareSite, stations: usize, spacing_m: f64, feeder_m: f64) -> Result<f64, ReachLimit> {
    let longest = bare.longest();
    let family = longest.family();
    let length_m = feeder_m + spacing_m * (stations as f64 - 1.0);
    let too_long = |limit: &Option<latchline_finding::Sourced<latchline_finding::quantity::Length>>| {
        limit.as_ref().is_some_and(|limit| length_m > limit.value.as_metres())
    };
    if too_long(&family.longest_run) || too_long(&family.total_length_per_port) {
        return Err(ReachLimit::Length);
    }
    let too_many = |limit: Option<u32>| limit.is_some_and(|limit| stations > limit as usize);
    let model = longest.station_model(&longest.stations[longest.dwellings[0].stations[0]]);
    if too_many(family.stations_per_port.as_ref().map(|limit| limit.value))
        || too_many(model.most_per_supply.as_ref().map(|limit| limit.value))
        || (stations > 1 && !family.chains.value)
    {
        return Err(ReachLimit::Count);
    }
    let site = bare.with_chain(stations, spacing_m, feeder_m);
    by_solving(&site, bare.chain())
}

fn by_solving(site: &Site, chain: usize) -> Result<f64, ReachLimit> {
    let layout = Layout::new(site);
    let space = StateSpace::new(site, &layout);
    let worst = worst_states(site, &layout, &space, &SearchOptions::default());
    if worst.devices.iter().any(|device| device.worst().voltage_v.is_none()) {
        return Err(ReachLimit::Collapse);
    }
    if worst.devices.iter().any(|device| device.worst().margin_v() < 0.0) {
        return Err(ReachLimit::Voltage);
    }
    if worst.states.iter().any(|state| !state.complete) {
        return Err(ReachLimit::Undecided);
    }
    if let (latchline_site::model::RunStart::Port { box_index, .. }, Some(current)) =
        (site.runs[chain].from, &worst.run_current[chain])
    {
        let limit = &site.box_model(&site.boxes[box_index]).port_current_limit;
        let over = limit.as_ref().zip(current.current_a).is_some_and(|(limit, a)| a > limit.value.as_amps());
        if over {
            return Err(ReachLimit::PortCurrent);
        }
    }
    for (index, (stage, current)) in layout.stages.iter().zip(&worst.source_current).enumerate() {
        let Some(current_a) = current.as_ref().and_then(|current| current.current_a) else { continue };
        let power = worst.largest_power(index, |_| true);
        let (rated_a, rated_w) = match stage.source {
            StageSource::Supply(supply) => {
                let model = site.supply_model(&site.supplies[supply]);
                (Some(model.rated_current.value.as_amps()), &model.rated_power)
            }
            StageSource::Regenerator(index) => (None, &site.box_model(&site.boxes[index]).output_power),
        };
        let power_w = power.and_then(|power| power.power_w);
        let over_w = rated_w.as_ref().zip(power_w).is_some_and(|(rated, w)| w > rated.value.as_watts());
        if rated_a.is_some_and(|rated| current_a > rated) || over_w {
            return Err(ReachLimit::SupplyCurrent);
        }
    }
    let on_chain = worst.devices.iter().filter(|device| {
        let stage = layout.run_start[chain].map(|at| (at.stage, at.node));
        stage.is_some_and(|(stage, first)| {
            let end = layout.stages[stage].subtree_end[first] as usize;
            device.at.stage == stage && (first..end).contains(&device.at.node)
        })
    });
    let margin = on_chain.map(|device| device.worst().margin_v()).fold(f64::INFINITY, f64::min);
    Ok(margin)
}
