//! What the site as drawn says of a place that is told of: whether it is the reason itself, and which reading there decides it.

use crate::drawn_reason::reason;
use crate::plainest::Plain;
use crate::reader::Reader;
use crate::said::Said;
use crate::set_below::set_below;
use latchline_assess::physics_summary::{PowerReturnOutcome, StartUpSummary};
use latchline_assess::rules::codes as rules;
use latchline_assess::{Assessment, Device, DeviceResult, StateVoltage, SupplySheet};
use latchline_finding::{CallMoment, ElementId, Figure, Finding, Severity, StateKind, Unit};
use latchline_locate::{
    Evidence, Plant, Proof, Quantity, SymptomKind, exact_state_name, expected, read_as_planned, state_name,
};
use latchline_network::BusState;
use latchline_network::readings::ReadingPlace;
use latchline_site::model::{Site, Station, StationOwner};
use latchline_words::codes::{self, wording};
use latchline_words::locate::AsDrawn;
use latchline_words::terms::Term;
use latchline_words::{figures, states};
use std::path::Path;

/// Places that are told of one by one; more are no question about one place.
const MOST_PLACES: usize = 3;

/// The part of its middle that a reading without a fault may differ from it by, to be told.
const LEAST_KNOWN: f64 = 0.5;

/// What the site says of one station that is told of.
pub struct AsDrawnOf<'a> {
    assessment: &'a Assessment,
    /// The station.
    pub device: &'a DeviceResult,
    /// The kind of state in which it is said to happen.
    pub state: StateKind,
    /// What it has and needs there, with the calls that leave it least.
    pub in_state: StateVoltage,
    /// The plainest state of that kind: one call to it and nothing else, or standby.
    pub plain: Plain,
    /// What happens at its supply when power returns.
    pub start_up: Option<&'a StartUpSummary>,
    /// The sheet of its supply; `None` behind a box that makes a bus of its own.
    sheet: Option<&'a SupplySheet>,
    /// What the check finds there that shows as what is told, beside the voltage.
    pub reason: Option<&'a Finding>,
    /// Whether a dwelling beside has a station of its model, to swap it with.
    has_neighbour: bool,
    /// The reading that decides it, as it is without a fault.
    pub reading: Option<Proof>,
    /// Where that needs calls at once: the reading with one call.
    otherwise: Option<Proof>,
}

/// The state in which a symptom shows; `None` for one that no voltage explains.
fn shows_in(symptom: SymptomKind) -> Option<StateKind> {
    match symptom {
        SymptomKind::Restarts
        | SymptomKind::NoPicture
        | SymptomKind::DoesNotRing
        | SymptomKind::NoSpeech
        | SymptomKind::Dim
        | SymptomKind::ComesAndGoes
        | SymptomKind::NoRelease => Some(StateKind::Call),
        SymptomKind::Dead | SymptomKind::NotFound => Some(StateKind::StandbyDay),
        SymptomKind::AfterPowerCut => Some(StateKind::PowerReturn),
        _ => None,
    }
}

/// Whether a station is in a dwelling and another dwelling has one of its model.
fn has_neighbour(site: &Site, station: usize) -> bool {
    let dwelling = |station: &Station| match station.owner {
        StationOwner::Dwelling { dwelling, .. } => Some(dwelling),
        StationOwner::Entrance(_) | StationOwner::Management(_) => None,
    };
    let own = &site.stations[station];
    dwelling(own).is_some_and(|home| {
        let alike = site.stations.iter().filter(|other| other.model.value == own.model.value);
        alike.filter_map(dwelling).any(|other| other != home)
    })
}

impl<'a> AsDrawnOf<'a> {
    /// Of every station of which something is told that a voltage explains. None where a list of devices was given: that is no question about
    /// one place.
    pub fn told(plant: &Plant<'_>, assessment: &'a Assessment, evidence: &Evidence) -> Vec<AsDrawnOf<'a>> {
        if evidence.symptoms.iter().any(|symptom| symptom.kind == SymptomKind::Found) {
            return Vec::new();
        }
        let mut told: Vec<(usize, StateKind)> = evidence
            .symptoms
            .iter()
            .filter_map(|symptom| Some((symptom.station, shows_in(symptom.kind)?)))
            .collect();
        told.sort_unstable();
        told.dedup_by_key(|(station, _)| *station);
        if told.len() > MOST_PLACES {
            return Vec::new();
        }
        let of = |(station, state): (usize, StateKind)| {
            let there = evidence.symptoms.iter().filter(|symptom| symptom.station == station);
            let symptoms: Vec<SymptomKind> = there.map(|symptom| symptom.kind).collect();
            let reason = reason(assessment, plant.site, station, &symptoms);
            Some(AsDrawnOf { reason, ..Self::of(plant, assessment, station, state)? })
        };
        told.into_iter().filter_map(of).collect()
    }

    fn of(
        plant: &Plant<'_>,
        assessment: &'a Assessment,
        station: usize,
        state: StateKind,
    ) -> Option<AsDrawnOf<'a>> {
        let device = assessment.devices.iter().find(|one| one.device == Device::Station(station))?;
        let worst = &device.worst;
        let (state, in_state) = match device.by_state.get(&state) {
            Some(found) => (state, found.clone()),
            // Where the state cannot occur, the one that is tightest.
            None => (
                worst.state.kind,
                StateVoltage {
                    bus_state: worst.bus_state.clone(),
                    voltage_v: worst.adverse_v,
                    limit_v: worst.limit_v,
                    lowest_v: worst.adverse_v,
                },
            ),
        };
        let call =
            (state == StateKind::Call).then(|| plant.call(station, CallMoment::Ringing, None)).flatten();
        let at = ReadingPlace::Station(station);
        let plain = Plain::of(plant, station, call.unwrap_or_else(|| StateKind::StandbyDay.into()));
        let read_in = |state: &BusState| expected(plant, Quantity::Voltage { at, state: state.clone() });
        // A reading with one call decides nothing where only calls at once leave too little. Behind a supply or a port that is at its limit
        // then, no figure can be foretold: there it is read with one call all the same.
        let of_plain = read_in(&plain.state);
        let is_kept = of_plain.as_ref().is_none_or(|reading| reading.low >= plain.limit_v);
        let needs_more = is_short(&in_state)
            && (plain.is_enough() || is_kept)
            && in_state.bus_state != plain.state
            && can_be_put(&in_state.bus_state);
        let with_more = needs_more.then(|| read_in(&in_state.bus_state)).flatten();
        let (reading, otherwise) = match with_more.filter(is_told) {
            Some(decides) => (Some(decides), of_plain),
            None => (of_plain, None),
        };
        // It is printed as the papers have it: a voltage within what is planned is never called a fault.
        let as_planned = |known: Proof| read_as_planned(plant, &known.quantity).unwrap_or(known);
        Some(AsDrawnOf {
            assessment,
            device,
            state,
            in_state,
            plain,
            start_up: assessment.start_up.iter().find(|one| one.fed_from == device.fed_from),
            reason: None,
            sheet: assessment.supply_sheets.iter().find(|sheet| sheet.supply == device.source),
            has_neighbour: has_neighbour(plant.site, station),
            reading: reading.map(as_planned),
            otherwise: otherwise.map(as_planned),
        })
    }

    fn margin_v(&self) -> f64 {
        self.in_state.margin_v()
    }

    /// Whether it has less than it needs in the state in which it is said to happen.
    pub fn is_the_reason(&self) -> bool {
        self.margin_v() < 0.0
    }

    /// Whether anything that the check finds may be why it happens there: too little voltage in any state on mains, a power return that ends
    /// otherwise, an error other than of voltage at the place itself; after a power cut an error at its supply, too. What shows only at the
    /// battery's end is said, but nobody told that the mains was off.
    pub fn may_explain(&self) -> bool {
        let starts = self.start_up.is_none_or(|start| {
            matches!(start.outcome, PowerReturnOutcome::Runs | PowerReturnOutcome::NotJudged)
        });
        let is_at = |element: &ElementId| {
            *element == self.device.id
                || (self.state == StateKind::PowerReturn && *element == self.device.source)
        };
        let is_other = |one: &&Finding| one.severity == Severity::Error && one.code != rules::VOLTAGE_TOO_LOW;
        let mut errors = self.assessment.findings.iter().filter(is_other);
        let on_mains = |kind: StateKind| kind != StateKind::BatteryEnd;
        self.reason.is_some()
            || !self.plain.is_enough()
            || (self.is_the_reason() && on_mains(self.state))
            || (self.device.worst.margin_v() < 0.0 && on_mains(self.device.worst.state.kind))
            || !starts
            || errors.any(|one| one.element.as_ref().is_some_and(is_at))
    }

    /// The state of its deciding reading as it is written behind `@`; empty in standby.
    pub fn state_name(&self, site: &Site) -> String {
        let Some(state) = self.reading.as_ref().and_then(|reading| reading.quantity.state()) else {
            return String::new();
        };
        self.written(site, state)
    }

    /// A state as it is written behind `@`: the plainest in short, any other with who calls whom.
    fn written(&self, site: &Site, state: &BusState) -> String {
        if *state == self.plain.state {
            let at = self.reading.as_ref().map(|reading| reading.quantity.place());
            state_name(site, state, at)
        } else {
            exact_state_name(site, state)
        }
    }

    /// Whether the site as drawn is the reason, over all its states: in which state it would show, and whether in the plainest.
    pub fn verdict(&self, reader: &Reader<'_>) -> String {
        let language = reader.language;
        let place = &latchline_finding::shown::prose(self.device.id.as_str());
        let bound = self.device.worst.is_bound.then(|| Term::AtLeast.both());
        let bound = bound.as_ref().map(|bound| bound.of(language));
        let limit = Figure::new(self.in_state.limit_v, Unit::Volt);
        let when = &states::with_calls(&self.in_state.bus_state.named(reader.site), language);
        let worst = &self.device.worst;
        let worst_when = &states::with_calls(&worst.state, language);
        let first = match (self.in_state.voltage_v, worst.adverse_v) {
            (None, _) => AsDrawn::Collapses { place, when },
            (Some(voltage_v), _) if self.is_the_reason() => {
                let missing = up(-self.margin_v());
                AsDrawn::Weak { place, when, voltage: down(voltage_v), bound, limit, missing }
            }
            (Some(_), None) => AsDrawn::CollapsesOtherwise { place, when: worst_when },
            (Some(_), Some(_)) if worst.margin_v() < 0.0 => {
                AsDrawn::WeakOtherwise { place, when: worst_when, missing: up(-worst.margin_v()) }
            }
            (Some(voltage_v), _) => {
                let margin = down(self.margin_v());
                AsDrawn::Sound { place, when, voltage: down(voltage_v), bound, limit, margin }
            }
        };
        let other = self.told_reason().map(|found| {
            let message = &wording(found, language).message;
            AsDrawn::OtherThanVoltage { message }.say(language)
        });
        // That its voltage is enough then clears nothing.
        let of_voltage = Some(first.say(language)).filter(|_| other.is_none() || self.is_short_somewhere());
        let mut said: Vec<String> = other.into_iter().chain(of_voltage).collect();
        said.extend(set_below(self.assessment, &self.device.source, reader.language));
        said.extend(self.in_the_plainest(reader));
        said.join(" ")
    }

    /// The finding that explains it, where the voltage in the state that was told does not.
    fn told_reason(&self) -> Option<&'a Finding> {
        self.reason.filter(|_| !self.is_the_reason())
    }

    /// Where the site is the reason in some state: whether it shows in the plainest one too, unless that is the one that was told.
    fn in_the_plainest(&self, reader: &Reader<'_>) -> Option<String> {
        let language = reader.language;
        let is_same = self.plain.state == self.in_state.bus_state && self.is_the_reason();
        if !self.is_short_somewhere() || is_same {
            return None;
        }
        let when = &states::exactly(&self.plain.state.named(reader.site), language);
        let limit = Figure::new(self.plain.limit_v, Unit::Volt);
        Some(match self.plain.least_v {
            None => AsDrawn::CollapsesThere { when }.say(language),
            Some(least_v) if self.plain.is_enough() => {
                AsDrawn::EnoughThere { when, voltage: down(least_v), limit }.say(language)
            }
            Some(least_v) => AsDrawn::ShortThere { when, voltage: down(least_v) }.say(language),
        })
    }

    /// Whether it has too little in any state.
    fn is_short_somewhere(&self) -> bool {
        self.is_the_reason() || self.device.worst.margin_v() < 0.0
    }

    /// What else the site says: its tightest state, a start, a battery.
    fn further(&self, reader: &Reader<'_>, site_file: Option<&Path>) -> Vec<String> {
        let language = reader.language;
        let mut said = Vec::new();
        let worst = &self.device.worst;
        let check = site_file.map(|file| format!("latchline check {}", latchline_finding::shown::path(file)));
        let check = check.as_deref().map(latchline_finding::shown::prose);
        let command = check.as_deref();
        if self.is_short_somewhere() || self.told_reason().is_some() {
            let mended = command.map_or(AsDrawn::MendedByJobs, |command| AsDrawn::Mended { command });
            said.push(mended.say(language));
        } else if worst.state.kind != self.state {
            let when = &states::with_calls(&worst.state, language);
            said.push(AsDrawn::LeastOfAll { when, margin: down(worst.margin_v()) }.say(language));
        }
        let supply = &latchline_finding::shown::prose(self.device.source.as_str());
        said.push(
            match self.start_up {
                Some(start)
                    if start.outcome == PowerReturnOutcome::Runs && start.dropouts + start.trips == 0 =>
                {
                    AsDrawn::StartsSound { supply }
                }
                Some(start) if start.outcome == PowerReturnOutcome::Runs => {
                    let some = |count: usize| (count > 0).then_some(count);
                    let (dropouts, trips) = (some(start.dropouts), some(start.trips));
                    AsDrawn::StartsWithDropouts { supply, dropouts, trips }
                }
                Some(start) if start.outcome != PowerReturnOutcome::NotJudged => {
                    AsDrawn::StartFails { supply, down: start.not_running.len() }
                }
                _ => AsDrawn::StartNotJudged { supply, command },
            }
            .say(language),
        );
        if let Some(sheet) = self.sheet {
            said.push(match &sheet.battery {
                None => AsDrawn::NoBattery { supply }.say(language),
                Some(Ok(battery)) => match battery.shortest() {
                    Some(shortest) => {
                        let hours = &figures::battery_hours(shortest.hours, language);
                        AsDrawn::Battery { supply, hours }.say(language)
                    }
                    None => AsDrawn::BatteryNotJudged { supply, command }.say(language),
                },
                Some(Err(_)) => AsDrawn::BatteryNotJudged { supply, command }.say(language),
            });
        }
        said
    }

    /// All of it, with what to measure first and what each outcome would mean; on a page, which has no file, without commands.
    pub fn whole(&self, reader: &Reader<'_>, site_file: Option<&Path>) -> Said {
        let language = reader.language;
        let mut said = vec![self.verdict(reader)];
        said.extend(self.further(reader, site_file));
        let mut out = Said::default();
        out.paragraph(said.join(" "));
        if let Some(found) = self.told_reason() {
            let measure = codes::of(found.code.as_str()).and_then(|code| code.measure(language));
            let measure = measure.map(|measure| AsDrawn::MeasureThat { measure }.say(language));
            measure.into_iter().for_each(|measure| out.paragraph(measure));
            return out;
        }
        let Some(reading) = &self.reading else { return out };
        let is_plain = reading.quantity.state() == Some(&self.plain.state);
        let limit_v = if is_plain { self.plain.limit_v } else { self.in_state.limit_v };
        let limit = Figure::new(limit_v, Unit::Volt);
        let is_short_there = !is_plain || (!self.plain.is_enough() && reading.low < limit_v);
        // With enough as planned, what the meter may show below the limit counts as below it.
        let least_v = if is_short_there { reading.low } else { reading.low.max(limit_v) };
        let (low, high) = (down(least_v), up(reading.high));
        let named = &reader.reading(&reading.quantity);
        out.paragraph(AsDrawn::Measure { reading: named }.say(language));
        let mut line = |words: AsDrawn<'_>| out.item(words.say(language));
        if is_short_there {
            line(AsDrawn::WithinWeakPlan { low, high, limit });
            line(AsDrawn::BelowWeakPlan { low });
        } else {
            if self.is_short_somewhere() {
                let worst = &self.device.worst.state;
                line(AsDrawn::WithinPlanThere { low, high, when: &states::with_calls(worst, language) });
            } else {
                let swap = self.has_neighbour.then(|| AsDrawn::SwapWithNeighbour.say(language));
                line(AsDrawn::WithinPlan { low, high, swap: swap.as_deref() });
            }
            if low.value > limit.value {
                line(AsDrawn::BelowPlan { limit, low });
            }
            line(AsDrawn::BelowLimit { limit });
        }
        if let Some(one) = &self.otherwise {
            let words = AsDrawn::OtherwiseOne {
                reading: &reader.reading(&one.quantity),
                low: down(one.low),
                high: up(one.high),
            };
            out.paragraph(words.say(language));
        }
        let Some(site_file) = site_file else { return out };
        let place = self.device.id.as_str();
        let when = match self.state_name(reader.site) {
            state if state.is_empty() => state,
            state => format!("@{state}"),
        };
        let command = format!(
            "latchline locate {} {place}{when}={}V,least-held",
            latchline_finding::shown::path(site_file),
            figures::trimmed(limit.value, 2)
        );
        let command = &latchline_finding::shown::prose(&command);
        out.paragraph(AsDrawn::ThenTell { command }.say(language));
        out
    }
}

/// Errors that may explain what is told. Where it is told what happens at which place, an error elsewhere, or of another kind, says nothing about it.
pub fn design_errors(assessment: &Assessment, drawn: &[AsDrawnOf<'_>]) -> usize {
    let errors = assessment.findings.iter().filter(|one| one.severity == Severity::Error).count();
    if drawn.is_empty() || drawn.iter().any(AsDrawnOf::may_explain) { errors } else { 0 }
}

/// Whether it has less in a state than it needs.
fn is_short(state: &StateVoltage) -> bool {
    state.voltage_v.is_none_or(|voltage_v| voltage_v < state.limit_v)
}

/// Whether a reading without a fault is known closely enough to be told: less than half of its middle to either side.
fn is_told(reading: &Proof) -> bool {
    let (middle, half) = (0.5 * (reading.low + reading.high), 0.5 * (reading.high - reading.low));
    half < LEAST_KNOWN * middle
}

/// Whether people at doors can put a state: calls, and no lock released besides them.
fn can_be_put(state: &BusState) -> bool {
    state.kind == StateKind::Call && state.calls.iter().all(|call| call.moment != CallMoment::ReleasedByHand)
}

/// Volts to the hundredth below.
fn down(voltage_v: f64) -> Figure {
    Figure::new(figures::down(voltage_v, 2), Unit::Volt)
}

/// Volts to the hundredth above.
fn up(voltage_v: f64) -> Figure {
    Figure::new(figures::up(voltage_v, 2), Unit::Volt)
}
