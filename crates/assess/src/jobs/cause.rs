//! Findings that one thing explains.

use super::danger::{Danger, of_code};
use super::standing::to_be_mended;
use crate::assessment::Assessment;
use crate::rules::codes;
use latchline_finding::{Argument, Code, ElementId, Finding, Severity};
use latchline_site::model::Site;
use latchline_site::ways::Ways;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Findings that one thing explains.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// What is in danger.
    pub danger: Danger,
    /// The worst of its findings.
    pub severity: Severity,
    /// The supply, run, station, door or dwelling that it is about.
    pub place: Option<ElementId>,
    /// Where stations or a riser are concerned, the runs on the way there from the supply, the run itself last.
    pub way: Vec<ElementId>,
    /// Its findings, the one furthest beyond its limit first: indices into [`Assessment::findings`].
    pub findings: Vec<usize>,
}

/// Findings with the same of these have one cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Matter {
    /// More is asked of a supply, or of a port, than it gives.
    Supply,
    /// Battery and charger.
    Battery,
    /// Stations are low.
    Voltage,
    /// Something gets too much.
    HighVoltage,
    /// Stations hear too little.
    Signal,
    /// A cable is not what it should be.
    Cable,
    /// Each kind for itself.
    Code(Code),
}

fn matter(code: Code) -> Matter {
    match code {
        codes::SUPPLY_SET_TOO_LOW
        | codes::NO_OPERATING_POINT
        | codes::SUPPLY_OVERLOADED
        | codes::SUPPLY_COUNT_EXCEEDED
        | codes::TRIP_BELOW_LEGITIMATE_CURRENT
        | codes::PORT_OVERLOADED
        | codes::START_UP_FAILS
        | codes::START_UP_HICCUPS
        | codes::START_UP_DIP => Matter::Supply,
        codes::BATTERY_HOURS_SHORT | codes::CHARGER_TOO_SMALL | codes::BATTERY_END_VOLTAGE_LOW => {
            Matter::Battery
        }
        codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN => Matter::Voltage,
        codes::VOLTAGE_TOO_HIGH => Matter::HighVoltage,
        codes::SIGNAL_TOO_WEAK | codes::SIGNAL_NOTCH | codes::SIGNAL_RIPPLE => Matter::Signal,
        codes::CABLE_UNSUITABLE
        | codes::CLAD_ALUMINIUM
        | codes::MORE_PAIRS_THAN_CABLE
        | codes::MEASURED_LOOP_DIFFERS
        | codes::MEASURED_CAPACITANCE_DIFFERS
        | codes::INSULATION_TOO_LOW => Matter::Cable,
        code => Matter::Code(code),
    }
}

/// What findings of one cause share.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Shared {
    danger: Option<Danger>,
    matter: Matter,
    place: Option<ElementId>,
    /// Run by which it is shared, by index.
    run: Option<usize>,
}

/// Causes that are not yet in a job, the worst danger first, in each danger errors first.
pub(super) struct Causes<'a> {
    site: &'a Site,
    assessment: &'a Assessment,
    ways: Ways<'a>,
    left: Vec<Grouped>,
}

/// A cause with what its findings share.
pub(super) struct Grouped {
    shared: Shared,
    pub cause: Cause,
}

impl<'a> Causes<'a> {
    /// The causes of all standing errors and warnings.
    pub fn new(site: &'a Site, assessment: &'a Assessment) -> Self {
        let ways = Ways::new(site);
        let shared = SharedRuns::new(assessment, &ways);
        let mut groups: BTreeMap<Shared, Vec<usize>> = BTreeMap::new();
        for (index, finding) in to_be_mended(assessment) {
            groups.entry(shared.of(finding)).or_default().push(index);
        }
        let mut causes = Causes { site, assessment, ways, left: Vec::new() };
        for (shared, findings) in groups {
            causes.add(shared, findings);
        }
        causes
    }

    /// The worst that is left.
    pub fn next(&mut self) -> Option<Grouped> {
        (!self.left.is_empty()).then(|| self.left.remove(0))
    }

    /// Adds findings that share something, at their place; nothing where there are none.
    fn add(&mut self, shared: Shared, findings: Vec<usize>) {
        if findings.is_empty() {
            return;
        }
        let cause = cause(self.site, self.assessment, &self.ways, shared.clone(), findings);
        let key = |cause: &Cause| {
            (cause.danger, Reverse(cause.severity), Reverse(cause.findings.len()), cause.findings.clone())
        };
        let place = self.left.partition_point(|other| key(&other.cause) <= key(&cause));
        self.left.insert(place, Grouped { shared, cause });
    }

    /// Parts a cause: what is given back holds the findings that are wanted, the others are left as a cause of their own.
    pub fn part(&mut self, grouped: Grouped, is_wanted: impl Fn(usize) -> bool) -> Option<Cause> {
        let (wanted, others): (Vec<usize>, Vec<usize>) =
            grouped.cause.findings.iter().partition(|finding| is_wanted(**finding));
        if others.is_empty() {
            return Some(grouped.cause);
        }
        let shared = grouped.shared;
        self.add(shared.clone(), others);
        (!wanted.is_empty()).then(|| cause(self.site, self.assessment, &self.ways, shared, wanted))
    }
}

fn cause(
    site: &Site,
    assessment: &Assessment,
    ways: &Ways<'_>,
    shared: Shared,
    mut findings: Vec<usize>,
) -> Cause {
    let all = &assessment.findings;
    findings.sort_by(|a, b| {
        let (one, other) = (&all[*a], &all[*b]);
        let worse = other.severity.cmp(&one.severity);
        worse.then(excess(other).total_cmp(&excess(one))).then(a.cmp(b))
    });
    let way = match (shared.run, shared.matter) {
        (Some(run), _) => ways.names(ways.to_run(run)),
        (None, Matter::Supply) => collapsing_way(assessment, ways, &findings),
        _ => Vec::new(),
    };
    let stations: BTreeSet<_> = findings.iter().filter_map(|one| all[*one].element.as_ref()).collect();
    let danger = shared.danger.unwrap_or_else(|| match (shared.run, &shared.place) {
        (Some(run), _) if ways.feeds_others(run) => Danger::Riser,
        (Some(_), _) if stations.len() > 1 => Danger::Run,
        (Some(_), _) => Danger::Station,
        (None, Some(place)) => of_element(site, ways, place, is_of_run(&all[findings[0]])),
        (None, None) => Danger::Site,
    });
    let place = match shared.run {
        Some(run) if stations.len() > 1 => Some(site.runs[run].id.clone()),
        Some(_) => all[findings[0]].element.clone(),
        None => shared.place,
    };
    let severity = findings.iter().map(|index| all[*index].severity).max().unwrap_or(Severity::Warning);
    Cause { danger, severity, place, way, findings }
}

/// Whether a finding names a run. Runs have names of their own, so that the run to a door may be called as the door is.
fn is_of_run(finding: &Finding) -> bool {
    match finding.code {
        codes::CABLE_UNSUITABLE | codes::MORE_PAIRS_THAN_CABLE => finding.argument("lock").is_none(),
        codes::CLAD_ALUMINIUM
        | codes::MEASURED_LOOP_DIFFERS
        | codes::MEASURED_CAPACITANCE_DIFFERS
        | codes::INSULATION_TOO_LOW
        | codes::EXISTING_RUN_NOT_MEASURED
        | codes::LINE_CONSTANTS_MISSING
        | codes::RUN_TOO_LONG
        | codes::SECTION_VERY_SHORT
        | codes::BESIDE_MAINS
        | codes::OUTDOOR_RUN_WITHOUT_SURGE_PROTECTION
        | codes::SHORT_CIRCUIT_NOT_CLEARED
        | codes::SHORT_CIRCUIT_NOT_DETECTED
        | codes::SHORT_CIRCUIT_DARKENS
        | codes::CHAIN_NOT_ALLOWED
        | codes::CHAIN_THROUGH_DWELLINGS
        | codes::SILENCED_GROUP => true,
        _ => false,
    }
}

fn of_element(site: &Site, ways: &Ways<'_>, element: &ElementId, names_run: bool) -> Danger {
    let run = || {
        let run = ways.run(element)?;
        Some(if ways.feeds_others(run) { Danger::Riser } else { Danger::Run })
    };
    if let Some(danger) = run().filter(|_| names_run) {
        return danger;
    }
    if site.supplies.iter().any(|supply| supply.id == *element) {
        return Danger::Supply;
    }
    if site.stations.iter().any(|station| station.id == *element) {
        return Danger::Station;
    }
    // A box, or a port of one, "D1.3".
    let is_box = |one: &latchline_site::model::DistributionBox| {
        let rest = element.as_str().strip_prefix(one.id.as_str());
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    };
    if site.boxes.iter().any(is_box) { Danger::Riser } else { run().unwrap_or(Danger::Station) }
}

/// Where no voltages satisfy a circuit, the way to the run that it is lost on; where that could not be found, to the device farthest
/// from the supply among those that go down.
fn collapsing_way(assessment: &Assessment, ways: &Ways<'_>, findings: &[usize]) -> Vec<ElementId> {
    let collapse = findings
        .iter()
        .map(|index| &assessment.findings[*index])
        .find(|finding| finding.code == codes::NO_OPERATING_POINT);
    if let Some(Argument::Element(run)) = collapse.and_then(|finding| finding.argument("run"))
        && let Some(run) = ways.run(run)
    {
        return ways.names(ways.to_run(run));
    }
    let Some(Argument::Elements(down)) = collapse.and_then(|finding| finding.argument("devices")) else {
        return Vec::new();
    };
    let farthest = assessment
        .devices
        .iter()
        .filter(|device| down.contains(&device.id))
        .max_by(|a, b| a.loop_resistance_ohm.total_cmp(&b.loop_resistance_ohm));
    let run = farthest.and_then(|device| device.run_index);
    run.map_or(Vec::new(), |run| ways.names(ways.to_run(run)))
}

/// By which run stations share a trouble.
struct SharedRuns<'a> {
    assessment: &'a Assessment,
    /// Supplies that are set so low that all that is low on them follows.
    set_too_low: BTreeSet<&'a ElementId>,
    /// By each part that is of another family than its bus: the part that this is found of.
    wrong_family: BTreeMap<&'a ElementId, &'a ElementId>,
    /// Device by name.
    devices: BTreeMap<&'a ElementId, usize>,
    /// The run of each troubled device, by matter and device.
    runs: BTreeMap<(Matter, usize), usize>,
}

impl<'a> SharedRuns<'a> {
    fn new(assessment: &'a Assessment, ways: &Ways<'_>) -> Self {
        let devices: BTreeMap<&ElementId, usize> =
            assessment.devices.iter().enumerate().map(|(index, device)| (&device.id, index)).collect();
        let mut troubled: BTreeMap<Matter, BTreeSet<usize>> = BTreeMap::new();
        for (_, finding) in to_be_mended(assessment) {
            let matter = matter(finding.code);
            let device = finding.element.as_ref().and_then(|element| devices.get(element));
            if let (Matter::Voltage | Matter::Signal, Some(device)) = (matter, device) {
                troubled.entry(matter).or_default().insert(*device);
            }
        }
        // Stations on a run and beyond, of one source.
        let mut beyond: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (index, device) in assessment.devices.iter().enumerate() {
            for run in device.run_index.iter().flat_map(|run| ways.to_run(*run)) {
                beyond.entry(*run).or_default().push(index);
            }
        }
        let mut runs = BTreeMap::new();
        for (matter, members) in &troubled {
            let way = |member: &usize| assessment.devices[*member].run_index.map(|run| ways.to_run(run));
            let members: Vec<(usize, &[usize])> =
                members.iter().filter_map(|member| Some((*member, way(member)?))).collect();
            let mut shared = BTreeMap::new();
            share(&members, &beyond, &mut shared);
            runs.extend(shared.into_iter().map(|(member, run)| ((*matter, member), run)));
        }
        let set_too_low = to_be_mended(assessment)
            .filter(|(_, finding)| finding.code == codes::SUPPLY_SET_TOO_LOW)
            .filter_map(|(_, finding)| finding.element.as_ref())
            .collect();
        SharedRuns { assessment, set_too_low, wrong_family: wrong_family(assessment), devices, runs }
    }

    fn of(&self, finding: &Finding) -> Shared {
        let matter = matter(finding.code);
        let danger = of_code(finding.code);
        let device = finding.element.as_ref().and_then(|element| self.devices.get(element)).copied();
        let source = device.map(|device| &self.assessment.devices[device].source);
        if let (Matter::Voltage, Some(source)) = (matter, source.filter(|one| self.set_too_low.contains(one)))
        {
            return Shared { danger, matter: Matter::Supply, place: Some(source.clone()), run: None };
        }
        // What a part of another family gets or hears, and what hangs on one that feeds, follows from its family.
        if let (Matter::Voltage | Matter::HighVoltage | Matter::Signal, Some(element)) =
            (matter, finding.element.as_ref())
            && let Some(found_of) =
                self.wrong_family.get(element).or_else(|| source.and_then(|one| self.wrong_family.get(one)))
        {
            let code = codes::MIXED_FAMILIES;
            let place = Some((*found_of).clone());
            return Shared { danger: of_code(code), matter: Matter::Code(code), place, run: None };
        }
        let run = device.and_then(|device| self.runs.get(&(matter, device))).copied();
        let place = match (matter, device) {
            _ if run.is_some() => None,
            (Matter::HighVoltage, Some(device)) => Some(self.assessment.devices[device].source.clone()),
            // Whom nobody calls is one mistake however many it leaves out.
            (Matter::Code(codes::DWELLING_WITHOUT_ENTRANCE), _) => None,
            _ => finding.element.clone(),
        };
        Shared { danger, matter, place, run }
    }
}

/// The parts of another family than their bus, each with the part that this is found of.
fn wrong_family(assessment: &Assessment) -> BTreeMap<&ElementId, &ElementId> {
    let mixed = to_be_mended(assessment).map(|(_, finding)| finding);
    let mixed = mixed.filter(|finding| finding.code == codes::MIXED_FAMILIES);
    let parts = mixed.filter_map(|finding| match (&finding.element, finding.argument("devices")) {
        (Some(first), Some(Argument::Elements(devices))) => Some(devices.iter().map(move |one| (one, first))),
        _ => None,
    });
    parts.flatten().collect()
}

/// Of ten devices beyond a run, so many must be in trouble for the run to be what they share.
const MOST_OF_TEN: usize = 7;

/// The run that troubled devices share: the last that leads to all of them, if most of what hangs beyond it is in trouble; else they are
/// parted at the next run of their ways.
fn share(
    members: &[(usize, &[usize])],
    beyond: &BTreeMap<usize, Vec<usize>>,
    shared: &mut BTreeMap<usize, usize>,
) {
    let Some((_, first)) = members.first() else { return };
    let common = (0..first.len())
        .take_while(|at| members.iter().all(|(_, way)| way.get(*at) == Some(&first[*at])))
        .count();
    let last = common.checked_sub(1).map(|last| first[last]);
    let all = last.and_then(|run| beyond.get(&run)).map_or(usize::MAX, Vec::len);
    let is_shared = members.len().saturating_mul(10) >= all.saturating_mul(MOST_OF_TEN);
    let mut next: BTreeMap<Option<usize>, Vec<(usize, &[usize])>> = BTreeMap::new();
    for member in members {
        next.entry(member.1.get(common).copied()).or_default().push(*member);
    }
    match last {
        Some(run) if is_shared || next.len() == 1 => {
            shared.extend(members.iter().map(|(member, _)| (*member, run)));
        }
        _ => {
            for (run, part) in next {
                match (run, last) {
                    // They hang on the run itself, at whose end the others' runs begin.
                    (None, Some(own)) => shared.extend(part.iter().map(|(member, _)| (*member, own))),
                    _ => share(&part, beyond, shared),
                }
            }
        }
    }
}

/// How far a figure is beyond its limit, relative to it; what others follow from is furthest.
pub fn excess(finding: &Finding) -> f64 {
    if matches!(finding.code, codes::NO_OPERATING_POINT | codes::SUPPLY_SET_TOO_LOW | codes::MIXED_FAMILIES) {
        return f64::INFINITY;
    }
    match (finding.value, finding.limit) {
        (Some(value), _) if !value.value.is_finite() => f64::INFINITY,
        (Some(value), Some(limit)) if limit.value != 0.0 => ((value.value - limit.value) / limit.value).abs(),
        (Some(value), Some(_)) => value.value.abs(),
        _ => 0.0,
    }
}
