//! What the site as drawn says of a place that is told of: whether it is the reason itself, and which reading there decides it.

use super::locate_words::Reader;
use latchline_assess::physics_summary::StartUpSummary;
use latchline_assess::{Assessment, Device, DeviceResult, StateVoltage, SupplySheet};
use latchline_finding::{CallMoment, ElementId, Figure, OperatingState, Severity, StateKind, Unit};
use latchline_locate::{Evidence, Plant, Proof, Quantity, SymptomKind, expected};
use latchline_network::readings::ReadingPlace;
use latchline_report::table::{hanging, paragraph};
use latchline_site::model::{Site, Station, StationOwner};
use latchline_words::locate::AsDrawn;
use latchline_words::terms::Term;
use latchline_words::{figures, states};
use std::path::Path;

/// Places that are told of one by one; more are no question about one place.
const MOST_PLACES: usize = 3;

/// What the site says of one station that is told of.
pub(super) struct AsDrawnOf<'a> {
    assessment: &'a Assessment,
    /// The station.
    pub device: &'a DeviceResult,
    /// The state in which it is said to happen.
    pub state: StateKind,
    /// What it has and needs there.
    pub in_state: StateVoltage,
    /// What happens at its supply when power returns.
    pub start_up: Option<&'a StartUpSummary>,
    /// The sheet of its supply; `None` behind a box that makes a bus of its own.
    sheet: Option<&'a SupplySheet>,
    /// Whether a dwelling beside has a station of its model, to swap it with.
    has_neighbour: bool,
    /// The reading that decides it, as it is without a fault.
    pub reading: Option<Proof>,
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
        told.into_iter().filter_map(|(station, state)| Self::of(plant, assessment, station, state)).collect()
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
            Some(found) => (state, *found),
            // Where the state cannot occur, the one that is tightest.
            None => (
                worst.state.kind,
                StateVoltage {
                    voltage_v: worst.adverse_v,
                    limit_v: worst.limit_v,
                    lowest_v: worst.adverse_v,
                },
            ),
        };
        let call =
            (state == StateKind::Call).then(|| plant.call(station, CallMoment::Ringing, None)).flatten();
        let bus_state = call.unwrap_or_else(|| StateKind::StandbyDay.into());
        let at = ReadingPlace::Station(station);
        Some(AsDrawnOf {
            assessment,
            device,
            state,
            in_state,
            start_up: assessment.start_up.iter().find(|one| one.fed_from == device.fed_from),
            sheet: assessment.supply_sheets.iter().find(|sheet| sheet.supply == device.source),
            has_neighbour: has_neighbour(plant.site, station),
            reading: expected(plant, Quantity::Voltage { at, state: bus_state }),
        })
    }

    fn margin_v(&self) -> f64 {
        self.in_state.voltage_v.map_or(f64::NEG_INFINITY, |voltage_v| voltage_v - self.in_state.limit_v)
    }

    /// Whether it has less than it needs in the state in which it is said to happen.
    pub fn is_the_reason(&self) -> bool {
        self.margin_v() < 0.0
    }

    /// Whether anything that the check finds may be why it happens there: too little voltage in any state, a power return that ends otherwise, an
    /// error at the place itself; after a power cut an error at its supply, too.
    pub fn may_explain(&self) -> bool {
        let starts = self.start_up.is_none_or(|start| matches!(start.outcome, "runs" | "not-judged"));
        let is_at = |element: &ElementId| {
            *element == self.device.id
                || (self.state == StateKind::PowerReturn && *element == self.device.source)
        };
        let mut errors = self.assessment.findings.iter().filter(|one| one.severity == Severity::Error);
        self.is_the_reason()
            || self.device.worst.margin_v() < 0.0
            || !starts
            || errors.any(|one| one.element.as_ref().is_some_and(is_at))
    }

    /// Whether the site as drawn is the reason, in a sentence.
    pub fn verdict(&self, reader: &Reader<'_>) -> String {
        let language = reader.language;
        let place = &latchline_finding::shown::prose(self.device.id.as_str());
        let when = &states::in_words(&OperatingState::from(self.state), language);
        let bound = self.device.worst.is_bound.then(|| Term::AtLeast.both());
        let bound = bound.as_ref().map(|bound| bound.of(language));
        let limit = Figure::new(self.in_state.limit_v, Unit::Volt);
        let Some(voltage_v) = self.in_state.voltage_v else {
            return AsDrawn::Collapses { place, when }.say(language);
        };
        let voltage = down(voltage_v);
        let margin_v = self.margin_v();
        if margin_v < 0.0 {
            let missing = up(-margin_v);
            return AsDrawn::Weak { place, when, voltage, bound, limit, missing }.say(language);
        }
        AsDrawn::Sound { place, when, voltage, bound, limit, margin: down(margin_v) }.say(language)
    }

    /// What else the site says: its tightest state, a start, a battery.
    fn further(&self, reader: &Reader<'_>) -> Vec<String> {
        let language = reader.language;
        let mut said = Vec::new();
        let worst = &self.device.worst;
        if worst.state.kind != self.state {
            let when = &states::in_words(&worst.state, language);
            let margin_v = worst.margin_v();
            said.push(match worst.adverse_v {
                None => AsDrawn::CollapsesOtherwise { when }.say(language),
                Some(_) if margin_v < 0.0 => {
                    let missing = up(-margin_v);
                    AsDrawn::WeakOtherwise { when, missing }.say(language)
                }
                Some(_) => AsDrawn::LeastOfAll { when, margin: down(margin_v) }.say(language),
            });
        }
        let supply = &latchline_finding::shown::prose(self.device.source.as_str());
        said.push(
            match self.start_up {
                Some(start) if start.outcome == "runs" && start.dropouts == 0 => {
                    AsDrawn::StartsSound { supply }
                }
                Some(start) if start.outcome == "runs" => {
                    AsDrawn::StartsWithDropouts { supply, dropouts: start.dropouts }
                }
                Some(start) if start.outcome != "not-judged" => {
                    AsDrawn::StartFails { supply, down: start.not_running.len() }
                }
                _ => AsDrawn::StartNotJudged { supply },
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
                    None => AsDrawn::BatteryNotJudged { supply }.say(language),
                },
                Some(Err(_)) => AsDrawn::BatteryNotJudged { supply }.say(language),
            });
        }
        said
    }

    /// All of it, with what to measure first and what each outcome would mean.
    pub fn text(&self, reader: &Reader<'_>, site_file: &Path, width: usize) -> String {
        let language = reader.language;
        let mut said = vec![self.verdict(reader)];
        said.extend(self.further(reader));
        let mut text = paragraph(&said.join(" "), 0, width);
        let Some(reading) = &self.reading else { return text };
        let limit = Figure::new(self.in_state.limit_v, Unit::Volt);
        let (low, high) = (down(reading.low), up(reading.high));
        let named = &reader.reading(&reading.quantity);
        text.push_str(&paragraph(&AsDrawn::Measure { reading: named }.say(language), 0, width));
        let mut line = |words: AsDrawn<'_>| text.push_str(&hanging("  ", &words.say(language), width));
        let swap = self.has_neighbour.then(|| AsDrawn::SwapWithNeighbour.say(language));
        line(AsDrawn::WithinPlan { low, high, swap: swap.as_deref() });
        if low.value > limit.value {
            line(AsDrawn::BelowPlan { limit, low });
        }
        line(AsDrawn::BelowLimit { limit });
        let place = self.device.id.as_str();
        let when = if reading.quantity.state().is_some_and(|state| !state.calls.is_empty()) {
            "@ringing"
        } else {
            ""
        };
        let command = format!(
            "latchline locate {} {place}{when}={}V,least-held",
            latchline_finding::shown::path(site_file),
            figures::trimmed(limit.value, 2)
        );
        let command = &latchline_finding::shown::prose(&command);
        text.push_str(&paragraph(&AsDrawn::ThenTell { command }.say(language), 0, width));
        text
    }
}

/// Volts to the hundredth below.
fn down(voltage_v: f64) -> Figure {
    Figure::new(figures::down(voltage_v, 2), Unit::Volt)
}

/// Volts to the hundredth above.
fn up(voltage_v: f64) -> Figure {
    Figure::new(figures::up(voltage_v, 2), Unit::Volt)
}
