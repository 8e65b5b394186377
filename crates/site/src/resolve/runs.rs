//! Runs: where they start, what they reach, how long they are.

use super::left_out::LeftOut;
use super::names::{NameIndex, Target};
use super::resolver::{PartKind, Resolver, STATED};
use crate::catalogue::{BoxKind, length_of_loop_m};
use crate::codes;
use crate::model::{Dwelling, Run, RunStart, RunStop, Section, Site, SiteHead};
use crate::parse::{Entry, Record, Value, clip};
use crate::ranges;
use latchline_finding::quantity::Length;
use latchline_finding::{Argument, ElementId, Figure, Finding, Origin, Provenance, Severity, Sourced, Unit};
use latchline_words::reading::{Expected, Thing};
use std::collections::BTreeSet;

impl Resolver<'_> {
    pub(super) fn runs(&mut self, file: &Record<'_>, head: &SiteHead, names: &NameIndex, site: &mut Site) {
        let is_open = file.is_written("runs") && file.field("runs").is_none();
        let mut left_out = LeftOut { is_open, ..LeftOut::default() };
        for entry in file.named("runs") {
            let start = self.start(entry, names, site);
            let stops = self.stops(entry, names, site);
            left_out.note(entry.name, &entry.record, start.is_some(), &stops);
            let lengths = self.lengths(entry, stops.len());
            let cable = self.run_cable(entry, head.cable.as_ref());
            let Some((from, from_origin)) = start else { continue };
            let sections = stops
                .into_iter()
                .zip(lengths)
                .filter_map(|((to, to_origin), length)| Some(Section { to: to?, to_origin, length }));
            let sections: Vec<Section> = sections.collect();
            if sections.is_empty() {
                continue;
            }
            let (record, id) = (&entry.record, ElementId::new(entry.name));
            let origin = record.at(&entry.span);
            let mut run = Run::read(record, STATED, id, origin, from, from_origin, sections, cable);
            if is_length_left_to_loop(record) {
                self.length_from_loop(&mut run, site, record.at(&entry.span));
            }
            site.runs.push(run);
        }
        self.structure(site, left_out);
    }

    /// Takes the length of a run from its measured loop, the sections being equally long.
    fn length_from_loop(&mut self, run: &mut Run, site: &Site, origin: Origin) {
        let Some(measured) = &run.measured.loop_resistance else { return };
        let Some(cable) = self.loader.catalogue.cables.get(&run.cable.value) else { return };
        let (conditions, sections) = (&site.conditions, run.sections.len());
        let pairs = run.pairs.value.max(1);
        let joint = conditions.joint_resistance.value;
        let joints_ohm = sections as f64 * run.terminals_ohm(joint) + run.joints_ohm(joint);
        let celsius = conditions.usual_temperature.value.as_celsius();
        let loop_ohm = measured.value.as_ohms();
        let length_m = length_of_loop_m(cable, celsius, loop_ohm, joints_ohm, pairs)
            .filter(|length_m| SHORTEST_M <= length_m / sections as f64);
        let Some(length_m) = length_m else {
            let finding = self
                .report(codes::LENGTH_MISSING, origin)
                .about(run.id.clone())
                .with("run", run.id.as_str())
                .with("sections", sections)
                .with("one_way", "length")
                .with("loop", Figure::new(loop_ohm, Unit::Ohm))
                .with("joints", Figure::new(joints_ohm, Unit::Ohm));
            self.findings.push(finding);
            return;
        };
        let mut finding = Finding::new(codes::LENGTH_FROM_LOOP, Severity::Advice, measured.origin.clone())
            .about(run.id.clone())
            .with("run", run.id.as_str())
            .with("length", Figure::new(length_m, Unit::Metre))
            .with("cable", run.cable.value.as_str())
            .with("loop", Figure::new(loop_ohm, Unit::Ohm));
        if sections > 1 {
            finding = finding.with("sections", sections);
        }
        self.findings.push(finding);
        let length = Length::from_metres(length_m / sections as f64);
        let length = Sourced::new(length, measured.origin.clone(), Provenance::Measured);
        run.sections.iter_mut().for_each(|section| section.length = length.clone());
    }

    fn run_cable(&mut self, entry: &Entry<'_>, default: Option<&Sourced<String>>) -> Sourced<String> {
        let record = &entry.record;
        let Some(cable) = record.read("cable", STATED).or_else(|| default.cloned()) else {
            if !record.is_written("cable") {
                let finding = self
                    .report(codes::MISSING_KEY, record.at(&entry.span))
                    .about(entry.name)
                    .with("key", "cable")
                    .with("table", Thing::Run.both())
                    .with("expected", Expected::CableHereOrUnderSite.both());
                self.findings.push(finding);
            }
            return Sourced::assumed(String::new());
        };
        self.check_part(PartKind::Cable, &cable, Some(entry.name));
        cable
    }

    fn start(&mut self, entry: &Entry<'_>, names: &NameIndex, site: &Site) -> Option<(RunStart, Origin)> {
        let record = &entry.record;
        let written = record.text("from")?;
        let origin = record.origin("from");
        let start = match names.get(written) {
            Some(Target::Supply(supply)) => RunStart::Supply(supply),
            // With nothing but a start at its end the two were exchanged, which is said there.
            Some(Target::Box(_)) if ends_at_a_start(record, names) => return None,
            Some(Target::Box(index)) => {
                let ports = self.ports(site, index).unwrap_or(0) as usize;
                let finding = self
                    .report(codes::PORT_NEEDED, origin)
                    .about(entry.name)
                    .with("name", clip(written))
                    .with("ports", ports);
                self.findings.push(finding);
                return None;
            }
            Some(target) => RunStart::Station(station_of(target, site)?),
            None => match split_name(written, names) {
                Some((Target::Box(index), Suffix::Port(port))) => {
                    if let Some(ports) = self.ports(site, index)
                        && !(1..=ports).contains(&port)
                    {
                        let finding = self
                            .report(codes::NO_SUCH_PORT, origin)
                            .about(entry.name)
                            .with("name", &site.boxes[index].id)
                            .with("port", port as usize)
                            .with("ports", ports as usize);
                        self.findings.push(finding);
                        return None;
                    }
                    RunStart::Port { box_index: index, port }
                }
                Some((Target::Dwelling(dwelling), Suffix::Extension(ordinal)))
                    if ordinal < site.dwellings[dwelling].stations.len() =>
                {
                    RunStart::Station(site.dwellings[dwelling].stations[ordinal])
                }
                _ => {
                    let known = self.gather(|_| names.names().map(str::to_string).collect());
                    self.unknown_element(Thing::StartOfRun, written, origin, entry.name, &known);
                    return None;
                }
            },
        };
        Some((start, origin))
    }

    fn ports(&self, site: &Site, index: usize) -> Option<u32> {
        self.loader.catalogue.boxes.get(&site.boxes[index].model.value).map(|model| model.ports.value)
    }

    fn stops(&mut self, entry: &Entry<'_>, names: &NameIndex, site: &Site) -> Vec<(Option<RunStop>, Origin)> {
        let record = &entry.record;
        let items = record.list("to");
        if items.is_empty() && record.field("to").is_some() {
            let finding = self
                .report(codes::RUN_WITHOUT_STOPS, record.origin("to"))
                .about(entry.name)
                .with("run", clip(entry.name));
            self.findings.push(finding);
        }
        let mut stops = Vec::with_capacity(items.len());
        for item in items {
            let origin = record.at(&item.span);
            let Value::Text(written) = item.value else {
                stops.push((None, origin));
                continue;
            };
            // A range, unless something has that very name.
            match ranges::stops(written).filter(|_| names.get(written).is_none()) {
                Some(Ok(range)) => {
                    for name in range {
                        stops.push((self.stop(&name, &origin, entry, names, site), origin.clone()));
                    }
                }
                _ => stops.push((self.stop(written, &origin, entry, names, site), origin)),
            }
        }
        stops
    }

    /// A dwelling that is there, and has fewer stations.
    fn no_such_extension(&mut self, written: &str, origin: &Origin, entry: &Entry<'_>, dwelling: &Dwelling) {
        let own = dwelling.id.as_str();
        let listed: BTreeSet<&str> = entry
            .record
            .list("to")
            .iter()
            .filter_map(|item| match item.value {
                Value::Text(text) => Some(text),
                _ => None,
            })
            .collect();
        let further = (2..=dwelling.stations.len()).map(|ordinal| format!("{own}:{ordinal}"));
        let mut free: Vec<String> = further.filter(|name| !listed.contains(name.as_str())).collect();
        if free.is_empty() {
            free.push(own.to_string());
        }
        let mut finding = self
            .report(codes::UNKNOWN_NAME, origin.clone())
            .about(clip(entry.name).as_str())
            .with("kind", Thing::StopOfRun.both())
            .with("name", clip(written))
            .with("nearest", free);
        finding = finding.with("dwelling", own).with("stations", dwelling.stations.len());
        self.findings.push(finding);
    }

    fn stop(
        &mut self,
        written: &str,
        origin: &Origin,
        entry: &Entry<'_>,
        names: &NameIndex,
        site: &Site,
    ) -> Option<RunStop> {
        let (run, from) = (entry.name, entry.record.text("from"));
        match names.get(written) {
            Some(Target::Box(index)) => return Some(RunStop::BoxInput(index)),
            Some(Target::Supply(_)) => {}
            Some(target) => return station_of(target, site).map(RunStop::Station),
            None => match split_name(written, names) {
                Some((Target::Dwelling(dwelling), Suffix::Extension(ordinal)))
                    if ordinal < site.dwellings[dwelling].stations.len() =>
                {
                    return Some(RunStop::Station(site.dwellings[dwelling].stations[ordinal]));
                }
                Some((Target::Box(index), Suffix::Link)) => {
                    let model = self.loader.catalogue.boxes.get(&site.boxes[index].model.value);
                    if model.is_some_and(|model| model.kind.value != BoxKind::Isolating) {
                        let finding = self
                            .report(codes::NOT_ISOLATING, origin.clone())
                            .about(run)
                            .with("name", &site.boxes[index].id);
                        self.findings.push(finding);
                        return None;
                    }
                    return Some(RunStop::BoxLink(index));
                }
                Some((Target::Box(_), Suffix::Port(_))) => {}
                _ => {
                    if let Some((Target::Dwelling(dwelling), Suffix::Extension(_))) =
                        split_name(written, names)
                    {
                        // Of a dwelling given twice the second may have them, which is told there.
                        if !self.findings.explain_unknown(written, &[], |_| false) {
                            self.no_such_extension(written, origin, entry, &site.dwellings[dwelling]);
                        }
                        return None;
                    }
                    let known = self.gather(|_| names.names().map(str::to_string).collect());
                    self.unknown_element(Thing::StopOfRun, written, origin.clone(), run, &known);
                    return None;
                }
            },
        }
        let mut finding = self
            .report(codes::RUN_ENDS_AT_PORT, origin.clone())
            .about(run)
            .with("name", clip(written))
            .with("run", clip(run));
        // A port at the end and a station at the start: the two were exchanged.
        if let Some(from) = from.filter(|from| is_stop(from, names)) {
            // A whole list is turned round: exchanging its two ends alone would leave the stops between without a way.
            finding = match backwards(&entry.record, written, from) {
                Some(list) => finding.with("backwards", list),
                None => finding.with("from", clip(from)),
            };
        } else if entry.record.is_written("from") && from.is_none() && ends_at_a_start(&entry.record, names) {
            // A list where the one start belongs, and the start where the list belongs.
            let refused = self.findings.take_back(codes::WRONG_TYPE, run, "from");
            match refused.as_ref().and_then(|refused| refused.argument("written")) {
                Some(Argument::Texts(list)) => finding = finding.with("from_list", list.join(", ")),
                _ => refused.into_iter().for_each(|refused| self.findings.push(refused)),
            }
        }
        self.findings.push(finding);
        None
    }

    /// One length per section. What is missing stands in as zero, since an error is reported.
    fn lengths(&mut self, entry: &Entry<'_>, sections: usize) -> Vec<Sourced<Length>> {
        let record = &entry.record;
        let nothing = || Sourced::assumed(Length::ZERO);
        let ways = ["length", "lengths", "spacing"].into_iter().filter(|key| record.is_written(key)).count();
        let first_alone = record.is_written("first") && !record.is_written("spacing");
        if ways > 1
            || (record.is_written("first") && (record.is_written("length") || record.is_written("lengths")))
        {
            let keys =
                ["length", "lengths", "first", "spacing"].into_iter().filter(|key| record.is_written(key));
            let finding = self
                .report(codes::LENGTHS_GIVEN_TWICE, record.at(&entry.span))
                .about(entry.name)
                .with("run", clip(entry.name))
                .with("keys", keys.map(str::to_string).collect::<Vec<_>>());
            self.findings.push(finding);
            return vec![nothing(); sections];
        }
        if is_length_left_to_loop(record) {
            return vec![nothing(); sections];
        }
        if ways == 0 && !(first_alone && sections == 1) {
            let finding = self
                .report(codes::LENGTH_MISSING, record.at(&entry.span))
                .about(entry.name)
                .with("run", clip(entry.name));
            let finding = match first_alone {
                true => finding.with("further", sections.saturating_sub(1)),
                false => finding.with("sections", sections).with("one_way", "length"),
            };
            self.findings.push(finding);
            return vec![nothing(); sections];
        }
        let quantity = |key: &str| record.read(key, STATED).unwrap_or_else(nothing);
        let lengths: Vec<Sourced<Length>> = if record.is_written("lengths") {
            let items = record.list("lengths").iter().map(|item| match item.value {
                Value::Quantity(metres) => {
                    Sourced::new(Length::from_metres(metres), record.at(&item.span), STATED)
                }
                _ => nothing(),
            });
            items.collect()
        } else if record.is_written("length") {
            vec![quantity("length")]
        } else {
            let further = quantity("spacing");
            let first = if record.is_written("first") { quantity("first") } else { further.clone() };
            std::iter::once(first).chain(std::iter::repeat(further)).take(sections).collect()
        };
        let refused = record.is_written("lengths") && record.field("lengths").is_none();
        if lengths.len() != sections && sections > 0 && !refused {
            let key = if record.is_written("lengths") { "lengths" } else { "length" };
            let finding = self
                .report(codes::LENGTHS_DO_NOT_FIT, record.origin(key))
                .about(entry.name)
                .with("run", clip(entry.name))
                .with("lengths", lengths.len())
                .with("sections", sections);
            self.findings.push(finding);
        }
        if lengths.len() == sections { lengths } else { vec![nothing(); sections] }
    }
}

/// The shortest section that a site file may have, in metres.
const SHORTEST_M: f64 = 0.01;

/// Whether a run states no length but the loop that was measured.
fn is_length_left_to_loop(record: &Record<'_>) -> bool {
    let is_silent = ["length", "lengths", "first", "spacing"].into_iter().all(|key| !record.is_written(key));
    is_silent && record.within("measured", |measured| measured.field("loop").is_some())
}

/// Whether a name is that of something at which a run usually ends.
fn is_stop(name: &str, names: &NameIndex) -> bool {
    let own = |name: &str| {
        let target = names.get(name);
        matches!(
            target,
            Some(Target::Dwelling(_) | Target::Entrance(_) | Target::Management(_) | Target::Box(_))
        )
    };
    own(name) || name.rsplit_once(':').is_some_and(|(name, _)| own(name))
}

/// The stops of a run that ends at this start, from the start on: the others in reverse order, then what stands in `from`. `None` where it has no
/// others, or the start is not the last.
fn backwards(record: &Record<'_>, start: &str, from: &str) -> Option<String> {
    let names: Vec<&str> = record
        .list("to")
        .iter()
        .map(|item| match item.value {
            Value::Text(name) => Some(name),
            _ => None,
        })
        .collect::<Option<_>>()?;
    let (last, others) = names.split_last()?;
    if *last != start || others.is_empty() {
        return None;
    }
    let turned = others.iter().rev().copied().chain([from]);
    Some(turned.map(|name| format!("\"{}\"", clip(name))).collect::<Vec<_>>().join(", "))
}

/// Whether all that a run leads to is one supply or one port.
fn ends_at_a_start(record: &Record<'_>, names: &NameIndex) -> bool {
    let [only] = record.list("to") else { return false };
    let Value::Text(name) = only.value else { return false };
    match names.get(name) {
        Some(target) => matches!(target, Target::Supply(_)),
        None => matches!(split_name(name, names), Some((Target::Box(_), Suffix::Port(_)))),
    }
}

/// What may follow the name of a box or dwelling.
enum Suffix {
    /// `.3`
    Port(u32),
    /// `.link`
    Link,
    /// `:2`; counts from 0, so this is 1.
    Extension(usize),
}

/// Splits `D1.3`, `D1.link` or `A-12:2`. The suffix is what follows the last point or colon, so
/// names may contain both.
fn split_name(written: &str, names: &NameIndex) -> Option<(Target, Suffix)> {
    if let Some((name, port)) = written.rsplit_once('.')
        && let Some(target) = names.get(name)
    {
        return match port {
            "link" => Some((target, Suffix::Link)),
            port => Some((target, Suffix::Port(port.parse().ok()?))),
        };
    }
    let (name, number) = written.rsplit_once(':')?;
    let number: usize = number.parse().ok()?;
    Some((names.get(name)?, Suffix::Extension(number.checked_sub(1)?)))
}

fn station_of(target: Target, site: &Site) -> Option<usize> {
    match target {
        Target::Dwelling(index) => site.dwellings[index].stations.first().copied(),
        Target::Entrance(index) => Some(site.entrances[index].station),
        Target::Management(index) => Some(site.management[index].station),
        Target::Supply(_) | Target::Box(_) => None,
    }
}
