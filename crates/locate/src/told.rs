//! What is told, and how probable that is with a cause.
//!
//! Whether a station is dead, restarts or is dim follows from its voltage, for causes that change voltages. Everything else is in the table of
//! rates: the probability that a cause shows as a symptom at the stations that it concerns. A cause of the wiring, of a door or of a supply shows
//! alike at all stations that it concerns, or at none of them: so that of two of them one is told of and the other works speaks against it.

use crate::complaint::{Complaint, Noticing};
use crate::gauss::{log_sum, normal};
use crate::hypothesis::Hypothesis;
use crate::kind::{Element, Kind, SymptomKind};
use crate::plant::Plant;
use crate::predict::Faulted;
use crate::rates::Rates;
use latchline_network::NodeRef;

/// Probability that a cause that is not in the list shows as what was told, first of one station and then of a further one (assumed).
const TOLD_OF_NONE: f64 = 0.1;
const FURTHER_OF_NONE: f64 = 0.3;
/// Probability that it leaves a station that works as it is (assumed).
const WORKS_OF_NONE: f64 = 0.97;
/// Share of the bus voltage over which a device goes from working to not (assumed: units of a model differ).
const SOFT_LIMIT: f64 = 0.02;
/// Probability that a dead or removed station, or a dead door station to whom it calls, is told to give no sign (assumed).
const SILENT: f64 = 0.9;
/// Probability that somebody who says "works" of a station would have noticed what shows there (assumed).
const NOTICED_THERE: f64 = 0.95;
/// Least probability of anything that is told: people err (assumed).
const LEAST: f64 = 0.01;

/// A symptom with the states in which it would show.
pub(crate) struct Told {
    pub kind: SymptomKind,
    /// Index into `Site::stations`.
    pub station: usize,
    pub at: NodeRef,
    pub standby: Option<usize>,
    pub called: Option<usize>,
    /// Cut-off, least voltage in use, and source voltage.
    pub limits_v: (f64, f64, f64),
}

/// Everything that was told, with what says how probable it is.
pub(crate) struct Telling<'t, 'a> {
    pub plant: &'t Plant<'a>,
    pub rates: &'t Rates,
    pub symptoms: &'t [Told],
    pub complaint: Option<&'t Complaint>,
    pub design_fails: bool,
}

impl Telling<'_, '_> {
    /// Logarithm of the probability that what was told is told; `shows`: of every symptom the probability that it shows by voltage alone.
    pub fn log(&self, hypothesis: &Hypothesis, shows: &[f64], noticing: Option<Noticing>) -> f64 {
        if self.symptoms.is_empty() && self.complaint.is_none() {
            return 0.0;
        }
        let tables: Vec<Option<f64>> =
            self.symptoms.iter().map(|told| self.by_table(hypothesis, told)).collect();
        let visible = self.visible(hypothesis, &tables);
        let given = |is_visible: bool| -> f64 {
            let each = self.symptoms.iter().zip(shows).zip(&tables).map(|((told, shows), table)| {
                let anyway = self.rates.told_anyway(told.kind);
                match told.kind {
                    SymptomKind::Works => {
                        let hides =
                            if is_visible && self.shares(hypothesis, told) { NOTICED_THERE } else { 0.0 };
                        ((1.0 - shows) * (1.0 - hides)).max(LEAST)
                    }
                    SymptomKind::Found => ((1.0 - shows) * (1.0 - unlisted(hypothesis, told.at))).max(LEAST),
                    _ => {
                        let shown = table.filter(|table| is_visible && *table > anyway);
                        let table = shown.map_or(anyway, |table| (table / visible).min(1.0));
                        (1.0 - (1.0 - table) * (1.0 - 0.95 * shows)).max(anyway)
                    }
                }
            });
            each.map(f64::ln).sum::<f64>()
                + self.log_of_whom(hypothesis, shows, &tables, noticing, is_visible)
        };
        if visible <= 0.0 {
            given(false)
        } else if visible >= 1.0 {
            given(true)
        } else {
            log_sum(&[visible.ln() + given(true), (1.0 - visible).ln() + given(false)])
        }
    }

    /// Whether something that was told points to a cause: it shows by voltage, or the cause is one of those that show so there.
    pub fn points_to(&self, hypothesis: &Hypothesis, shows: &[f64]) -> bool {
        let mut bad = self.symptoms.iter().zip(shows).filter(|(told, _)| told.kind.is_bad());
        bad.any(|(told, shows)| {
            let anyway = self.rates.told_anyway(told.kind);
            let table = self.by_table(hypothesis, told);
            0.95 * shows > anyway
                || table.is_some_and(|table| table > anyway || hypothesis.cause.kind == Kind::DesignAsDrawn)
        })
    }

    /// Of a cause that the list does not have: it may be anywhere.
    pub fn log_of_none(&self) -> f64 {
        let bad = self.symptoms.iter().filter(|told| told.kind.is_bad()).count();
        let further = bad.saturating_sub(1) as f64;
        let works = (self.symptoms.len() - bad) as f64;
        // It may be of any stations: of as many, each set is as likely.
        let told = self.complaint.map_or(0, |complaint| complaint.told.len());
        let sets = (0..told).map(|one| ((self.stations() - one as f64).max(1.0) / (one as f64 + 1.0)).ln());
        let place = -sets.sum::<f64>();
        let first = if bad > 0 { TOLD_OF_NONE.ln() } else { 0.0 };
        first + further * FURTHER_OF_NONE.ln() + works * WORKS_OF_NONE.ln() + place
    }

    /// Probability by the table that a symptom is told of a station; `None` where the cause does not concern it.
    fn by_table(&self, hypothesis: &Hypothesis, told: &Told) -> Option<f64> {
        let kind = hypothesis.cause.kind;
        if hypothesis.concerns(self.plant, told.at) {
            return Some(match kind {
                Kind::DesignAsDrawn if self.design_fails => 0.4,
                Kind::StationDead | Kind::DoorStationDead | Kind::StationRemoved if told.kind.is_silent() => {
                    SILENT
                }
                _ => self.rates.told(told.kind, kind),
            });
        }
        // Two have the setting: of this one and any other.
        if kind == Kind::SettingDuplicate && told.kind == SymptomKind::TwoRing {
            let mut two_ring = self.symptoms.iter().filter(|one| one.kind == SymptomKind::TwoRing);
            let is_own = two_ring.any(|one| Some(one.at) == hypothesis.at);
            return is_own.then(|| self.rates.told(told.kind, kind));
        }
        self.is_called(hypothesis, told.station).then(|| match (kind, told.kind) {
            (_, SymptomKind::Dead | SymptomKind::NotFound | SymptomKind::Restarts | SymptomKind::Dim) => 0.0,
            (Kind::DoorStationDead, symptom) if symptom.is_silent() => SILENT,
            _ => self.rates.told(told.kind, kind),
        })
    }

    /// Whether a cause at a door concerns a station since that door calls it.
    fn is_called(&self, hypothesis: &Hypothesis, station: usize) -> bool {
        self.door(hypothesis).is_some_and(|door| self.plant.rings[door].binary_search(&station).is_ok())
    }

    /// The door station of a cause at a door.
    fn door(&self, hypothesis: &Hypothesis) -> Option<usize> {
        match (hypothesis.cause.kind, hypothesis.cause.element) {
            (
                Kind::DoorStationDead | Kind::CameraFailed | Kind::MicrophoneFailed | Kind::ButtonFailed,
                Element::Station(door),
            ) => Some(door),
            (_, Element::Entrance(entrance)) => Some(self.plant.site.entrances[entrance].station),
            _ => None,
        }
    }

    /// Whether a station that works shares what a cause shows elsewhere. Of a door's buttons one fails.
    fn shares(&self, hypothesis: &Hypothesis, told: &Told) -> bool {
        hypothesis.concerns(self.plant, told.at)
            || (hypothesis.cause.kind != Kind::ButtonFailed && self.is_called(hypothesis, told.station))
    }

    /// Probability that a cause shows at all in another way than by voltage: as it is told, or else as its kind usually does.
    fn visible(&self, hypothesis: &Hypothesis, tables: &[Option<f64>]) -> f64 {
        let told = self.symptoms.iter().zip(tables).filter(|(told, _)| told.kind.is_bad());
        let shown = told
            .filter_map(|(told, table)| table.filter(|table| *table > self.rates.told_anyway(told.kind)))
            .fold(0.0, f64::max);
        if shown > 0.0 {
            return shown.min(1.0);
        }
        let works = |told: &Told| told.kind == SymptomKind::Works && self.shares(hypothesis, told);
        if !self.symptoms.iter().any(works) {
            return 0.0;
        }
        match hypothesis.cause.kind {
            // Of the kinds that no voltage shows, those at a station itself are noticed there.
            Kind::SettingWrong | Kind::ForeignFamily | Kind::RingerMuted | Kind::DisplayFailed => 0.95,
            Kind::HandsetFailed | Kind::StationDead | Kind::StationRemoved => 1.0,
            _ => 0.2,
        }
    }

    /// Logarithm of the probability that just these stations are told of.
    fn log_of_whom(
        &self,
        hypothesis: &Hypothesis,
        shows: &[f64],
        tables: &[Option<f64>],
        noticing: Option<Noticing>,
        is_visible: bool,
    ) -> f64 {
        let Some(complaint) = self.complaint else { return 0.0 };
        let here = hypothesis.at.filter(|at| complaint.told.contains(at));
        let is_silent_itself =
            matches!(hypothesis.cause.kind, Kind::StationDead | Kind::StationRemoved | Kind::DoorStationDead);
        if let Some(Noticing { stations, told }) = noticing {
            // What is taken off notices beside those whose voltage it takes.
            let own = usize::from(is_silent_itself);
            let own_told = usize::from(is_silent_itself && here.is_some());
            return Noticing { stations: stations + own, told: told + own_told }.log(self.rates.told_of);
        }
        let is_shown = |(told, table): &(&Told, &Option<f64>)| {
            told.kind.is_bad() && table.is_some_and(|table| table > self.rates.told_anyway(told.kind))
        };
        let mut shown: Vec<usize> =
            self.symptoms.iter().zip(tables).filter(is_shown).map(|(told, _)| told.station).collect();
        shown.sort_unstable();
        shown.dedup();
        if !is_visible || shown.is_empty() {
            // Told of there, or measured there, for no reason that this cause would give: it might have been of any station.
            let is_concerned = complaint.told.iter().any(|at| hypothesis.concerns(self.plant, *at));
            let shows_called =
                self.symptoms.iter().zip(shows).any(|(told, shows)| {
                    told.kind.is_bad() && 0.95 * shows > self.rates.told_anyway(told.kind)
                });
            let is_reason = shows_called || (is_concerned && self.symptoms.is_empty());
            return if is_reason { 0.0 } else { -self.stations().ln() };
        }
        if let Some(door) = self.door(hypothesis) {
            let called = self.plant.rings[door].len().max(1);
            // A door stands for all whom it calls.
            if shown.contains(&door) {
                return 0.0;
            }
            if hypothesis.cause.kind == Kind::ButtonFailed {
                return -(shown.len() as f64) * (called as f64).ln();
            }
            return Noticing { stations: called.max(shown.len()), told: shown.len() }.log(self.rates.told_of);
        }
        match hypothesis.cause.element {
            Element::Station(own) => {
                let others = shown.iter().filter(|station| **station != own).count();
                -(others as f64) * self.stations().ln()
            }
            Element::Site => 0.0,
            _ => {
                let layout = self.plant.layout;
                let concerned = |at: &&NodeRef| hypothesis.concerns(self.plant, **at);
                let stations = layout.station.iter().flatten().filter(concerned).count();
                Noticing { stations: stations.max(shown.len()), told: shown.len() }.log(self.rates.told_of)
            }
        }
    }

    fn stations(&self) -> f64 {
        self.plant.layout.station.iter().flatten().count().max(1) as f64
    }
}

/// Probability that a station is missing from a list of devices by a cause that no voltage shows: whom a list names has power and a
/// setting of its own.
fn unlisted(hypothesis: &Hypothesis, at: NodeRef) -> f64 {
    match hypothesis.cause.kind {
        _ if hypothesis.at != Some(at) => 0.0,
        Kind::SettingWrong | Kind::SettingDuplicate => 0.5,
        Kind::StationDead | Kind::StationRemoved | Kind::DoorStationDead | Kind::ForeignFamily => 0.97,
        _ => 0.0,
    }
}

impl Told {
    /// Probability that the symptom shows by voltage alone.
    pub fn shows(&self, faulted: &[Faulted<'_, '_, '_>]) -> f64 {
        let (cut_off_v, least_v, source_v) = self.limits_v;
        let width_v = SOFT_LIMIT * source_v;
        let voltage = |state: Option<usize>| state.map(|state| faulted[state].voltage(self.at));
        let below = |limit_v: f64, voltage: Option<f64>| {
            voltage.map_or(0.0, |voltage| normal((limit_v - voltage.abs()) / width_v))
        };
        let is_off = |state: Option<usize>| state.is_some_and(|state| faulted[state].is_off(self.at));
        let tries = |state: Option<usize>| state.is_some_and(|state| faulted[state].tries_to_start(self.at));
        let dead = below(cut_off_v, voltage(self.standby));
        let drops = below(cut_off_v, voltage(self.called)).max(if is_off(self.called) { 0.8 } else { 0.0 });
        let restarts = (1.0 - dead) * drops.max(0.5 * below(least_v, voltage(self.called)));
        match self.kind {
            SymptomKind::Restarts => restarts.max(if tries(self.standby) { 0.5 } else { 0.0 }),
            SymptomKind::Dim => (1.0 - dead) * below(least_v, voltage(self.called)),
            SymptomKind::Found => dead,
            SymptomKind::Works => 1.0 - (1.0 - dead) * (1.0 - below(least_v, voltage(self.called))),
            symptom if symptom.is_silent() => dead.max(if is_off(self.standby) { 0.5 } else { 0.0 }),
            _ => 0.0,
        }
    }
}
