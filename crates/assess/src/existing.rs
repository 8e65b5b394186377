//! Cables that are already in the walls: which of them can stay.
//!
//! Against a cable stands what is found of the cable itself and of the way that it lies, and what is found of voltage or signal on a
//! station or box that is reached through it: a thin riser shows at the ends of the runs behind it. A wrong number, a lock or a model of
//! another family says nothing of the cable. A bus that collapses collapses as a whole: that stands against the runs that it comes of, and the
//! others are judged as if these carried their load.

use crate::assessment::RunSummary;
use crate::collapsed::{Collapsed, collapsed};
use crate::existing_cable::{ExistingCable, ExistingRun, JudgedApart, ShortApart, SignalThrough};
use crate::not_judged::NotJudged;
use crate::rules::codes;
use crate::rules::measured_loop_differs::expected_loop_ohm;
use crate::stage::WithSignal;
use latchline_finding::{Argument, Code, ElementId, Finding, Severity};
use latchline_network::conductor_size::conductor_size;
use latchline_network::signal_tree::StationSignal;
use latchline_network::{GivenUp, Memory};
use latchline_site::catalogue::SignalBand;
use latchline_site::codes::LENGTH_FROM_LOOP;
use latchline_site::model::{RunStop, Site};
use latchline_site::ways::Ways;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// Says of each existing run whether it can stay.
///
/// # Errors
/// [`GivenUp`] if it is no longer wanted.
pub(crate) fn judge_existing(
    context: &WithSignal<'_>,
    runs: &mut [RunSummary],
    findings: &[Finding],
    not_judged: &[NotJudged],
    memory: &Memory,
) -> Result<(), GivenUp> {
    let site = context.site;
    if !site.runs.iter().any(|run| run.existing.value) {
        return Ok(());
    }
    let ways = Ways::new(site);
    let collapsed = collapsed(context, findings, memory)?;
    for summary in runs {
        let run = &site.runs[summary.run];
        if !run.existing.value {
            continue;
        }
        let stations = &context.topology.stations_beyond[summary.run];
        let reached = reached(site, &ways, summary.run);
        let apart = collapsed.as_ref().and_then(|all| judged_apart(site, all, summary.run, &reached));
        let mut against: Vec<usize> = (0..findings.len())
            .filter(|index| {
                let one = &findings[*index];
                let is_judged = apart.is_none() || one.code != codes::NO_OPERATING_POINT;
                one.is_to_be_mended() && is_judged && is_against(one, &run.id, &reached)
            })
            .collect();
        against.sort_by_key(|index| (Reverse(findings[*index].severity), *index));
        let is_error = |index: &usize| findings[*index].severity == Severity::Error;
        let is_short_apart = apart.as_ref().is_some_and(|apart| apart.short.is_some());
        let short_apart = is_short_apart.then_some(codes::VOLTAGE_TOO_LOW);
        let found = codes_of(against.iter().map(|index| findings[*index].code).chain(short_apart));
        // Of what hangs behind it only the way there is the cable's matter.
        let own: BTreeSet<&ElementId> = run.sections.iter().map(|section| site.stop_id(section.to)).collect();
        let is_own = |element: &ElementId| *element == run.id || own.contains(element);
        let open = not_judged.iter().filter(|one| one.elements.iter().any(is_own));
        let open = codes_of(open.map(|one| one.code));
        let is_measured = run.measured.loop_resistance.is_some() && run.measured.insulation.is_some();
        let verdict = match (found.is_empty(), open.is_empty()) {
            (false, _) if is_short_apart || against.iter().any(is_error) => ExistingCable::Fails(found),
            (_, false) => ExistingCable::NotJudged(open),
            (false, true) if found.iter().any(|code| READINGS.contains(code)) => {
                ExistingCable::ReadsOtherwise(found)
            }
            (false, true) => ExistingCable::Warned(found),
            // A loop that its own length is worked out from fits whatever lies in it.
            (true, true) if is_measured && run.has_length_of_its_loop() => {
                ExistingCable::NotJudged(vec![LENGTH_FROM_LOOP])
            }
            (true, true) if is_measured => ExistingCable::CanStay,
            (true, true) => ExistingCable::CanStayIfMeasured,
        };
        summary.existing = Some(ExistingRun {
            verdict,
            against,
            expected_loop_ohm: expected_loop_ohm(site, run),
            conductor: conductor_size(site.cable(run).gauge.value),
            signal: signal_through(context, stations),
            apart,
        });
    }
    Ok(())
}

/// How a run is judged where its bus collapses on others; `None` where it is one of those that it collapses on, or hangs on a bus that stands.
fn judged_apart(
    site: &Site,
    collapsed: &Collapsed,
    run: usize,
    reached: &BTreeSet<&ElementId>,
) -> Option<JudgedApart> {
    if collapsed.causes.contains(&run) || !collapsed.dark.iter().any(|device| reached.contains(device)) {
        return None;
    }
    let short = collapsed.short.iter().filter(|one| reached.contains(&one.device));
    let missing_v = |one: &ShortApart| one.limit_v - one.voltage_v;
    Some(JudgedApart {
        sources: collapsed.sources.clone(),
        causes: collapsed.causes.iter().map(|cause| site.runs[*cause].id.clone()).collect(),
        short: short.max_by(|a, b| missing_v(a).total_cmp(&missing_v(b))).cloned(),
    })
}

/// Warnings of what was read of a cable.
const READINGS: [Code; 2] = [codes::MEASURED_LOOP_DIFFERS, codes::MEASURED_CAPACITANCE_DIFFERS];

/// Names of the stations and boxes that power reaches through a run.
fn reached<'a>(site: &'a Site, ways: &Ways<'_>, run: usize) -> BTreeSet<&'a ElementId> {
    let beyond = (0..site.runs.len()).filter(|other| ways.to_run(*other).contains(&run));
    let stops = beyond.flat_map(|other| &site.runs[other].sections);
    stops
        .filter(|section| !matches!(section.to, RunStop::BoxLink(_)))
        .map(|section| site.stop_id(section.to))
        .collect()
}

/// Whether a finding stands against the cable of a run through which these are reached.
fn is_against(finding: &Finding, run: &ElementId, reached: &BTreeSet<&ElementId>) -> bool {
    let names = |name: &str| match finding.argument(name) {
        Some(Argument::Element(element)) => reached.contains(element),
        Some(Argument::Elements(elements)) => elements.iter().any(|element| reached.contains(element)),
        _ => false,
    };
    let is_reached = finding.element.as_ref().is_some_and(|element| reached.contains(element));
    match finding.code {
        codes::CABLE_UNSUITABLE
        | codes::CLAD_ALUMINIUM
        | codes::MORE_PAIRS_THAN_CABLE
        | codes::MEASURED_LOOP_DIFFERS
        | codes::MEASURED_CAPACITANCE_DIFFERS
        | codes::INSULATION_TOO_LOW
        | codes::LINE_CONSTANTS_MISSING
        | codes::RUN_TOO_LONG
        | codes::SECTION_VERY_SHORT
        | codes::BESIDE_MAINS
        | codes::OUTDOOR_RUN_WITHOUT_SURGE_PROTECTION
        | codes::SHORT_CIRCUIT_NOT_CLEARED
        | codes::SHORT_CIRCUIT_NOT_DETECTED
        | codes::CHAIN_NOT_ALLOWED
        | codes::BRANCH_NOT_ALLOWED
        | codes::CHAIN_THROUGH_DWELLINGS
        | codes::SILENCED_GROUP => finding.element.as_ref() == Some(run),
        codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN => is_reached,
        codes::NO_OPERATING_POINT => names("devices"),
        codes::SIGNAL_TOO_WEAK | codes::SIGNAL_NOTCH | codes::SIGNAL_RIPPLE => is_reached || names("caller"),
        _ => false,
    }
}

fn codes_of(codes: impl Iterator<Item = Code>) -> Vec<Code> {
    let mut codes: Vec<Code> = codes.collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

/// The weakest signal to or from stations that are reached through a run.
fn signal_through(context: &WithSignal<'_>, stations: &[usize]) -> Option<SignalThrough> {
    let through: BTreeSet<usize> = stations.iter().copied().collect();
    let of_bands = context.signal.bands.iter().flat_map(|survey| {
        let band = &context.site.family().signal_bands[survey.band];
        survey.stations.iter().map(move |one| (band, one))
    });
    let left = |(band, one): &(&SignalBand, &StationSignal)| band.budget.value.as_decibels() - one.loss_db;
    let (band, weakest) = of_bands
        .filter(|(_, one)| through.contains(&one.station) != through.contains(&one.caller))
        .min_by(|a, b| left(a).total_cmp(&left(b)))?;
    let id = |station: usize| context.site.stations[station].id.clone();
    Some(SignalThrough {
        band: band.name.clone(),
        station: id(weakest.station),
        caller: id(weakest.caller),
        loss_db: weakest.loss_db,
        budget_db: band.budget.value.as_decibels(),
    })
}
