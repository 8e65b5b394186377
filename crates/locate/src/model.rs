//! What a fault makes of all that was read and told, ready to be compared.

use crate::alone::{read_alone, row_alone};
use crate::complaint::{Complaint, Noticing, told_of};
use crate::effect::Effect;
use crate::evidence::{Evidence, Measured, Symptom, Taken};
use crate::gauss::normal;
use crate::hypothesis::Hypothesis;
use crate::kind::{Kind, SymptomKind};
use crate::plant::Plant;
use crate::predict::{Faulted, Predicted, State};
use crate::quantity::Quantity;
use crate::rates::Rates;
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, StateKind};
use latchline_network::{BusState, Corner, NodeRef};

/// Probability that a cause that is not in the list shows as what was told (assumed).
const TOLD_OF_NONE: f64 = 0.1;
/// Share of the bus voltage over which a device goes from working to not (assumed: units of a model differ).
const SOFT_LIMIT: f64 = 0.02;

/// The readings and symptoms of one enquiry over a plant, with the states that they need.
pub(crate) struct Model<'p, 'a> {
    pub plant: &'p Plant<'a>,
    pub quantities: Vec<Quantity>,
    states: Vec<State<'p, 'a>>,
    /// State of each quantity; `None` for a run alone.
    state_of: Vec<Option<usize>>,
    /// How each quantity is read off.
    taken: Vec<Taken>,
    symptoms: Vec<Told>,
    /// Of whom is told; `None` where nothing says that it is told of anybody.
    complaint: Option<Complaint>,
}

/// A symptom with the states in which it would show.
struct Told {
    symptom: Symptom,
    at: NodeRef,
    standby: Option<usize>,
    called: Option<usize>,
    /// Cut-off, least voltage in use, and source voltage.
    limits_v: (f64, f64, f64),
}

/// What a fault makes of the enquiry.
#[derive(Debug, Clone)]
pub(crate) struct Outcome {
    /// Value of every quantity on its scale, with its own deviation.
    pub values: Vec<Predicted>,
    /// For every symptom the probability that it shows by voltage alone.
    pub shows: Vec<f64>,
    /// Who would notice it by the voltage; `None` if none of those who are told of.
    pub noticing: Option<Noticing>,
    /// What of every state and stage is as the flow alone has it, what is off or limited, what is out: outcomes with the same number
    /// change smoothly from one to the other.
    pub regime: u64,
}

impl<'p, 'a> Model<'p, 'a> {
    /// Quantities must have been checked: a place with a node, a state that can occur.
    pub fn new(plant: &'p Plant<'a>, quantities: Vec<Quantity>, symptoms: &[Symptom]) -> Self {
        let mut model = Model {
            plant,
            quantities: Vec::new(),
            states: Vec::new(),
            state_of: Vec::new(),
            taken: Vec::new(),
            symptoms: Vec::new(),
            complaint: None,
        };
        for quantity in quantities {
            let state = match quantity.state() {
                Some(state) => match model.state(state) {
                    Some(found) => Some(found),
                    None => continue,
                },
                None => None,
            };
            model.state_of.push(state);
            model.quantities.push(quantity);
            model.taken.push(Taken::default());
        }
        for symptom in symptoms {
            let Some(at) = plant.layout.station[symptom.station] else { continue };
            let station = plant.site.station_model(&plant.site.stations[symptom.station]);
            let standby = model.state(&BusState::from(StateKind::StandbyDay));
            // The list of devices is taken while nobody calls.
            let is_listed = matches!(symptom.kind, SymptomKind::Found | SymptomKind::NotFound);
            let called =
                if is_listed { None } else { plant.call(symptom.station, CallMoment::Ringing, None) };
            let called = called.and_then(|state| model.state(&state));
            let limits_v = (
                plant.cut_off_v[at.stage][at.node],
                station.least_voltage.value.as_volts(),
                plant.layout.stage(at).voltage_v[Corner::Nominal.index()],
            );
            model.symptoms.push(Told { symptom: *symptom, at, standby, called, limits_v });
        }
        model
    }

    /// Of evidence that has been checked.
    pub fn of(plant: &'p Plant<'a>, evidence: &Evidence) -> Self {
        let quantities = evidence.measured.iter().map(|one| one.quantity.clone()).collect();
        let mut model = Model::new(plant, quantities, &evidence.symptoms);
        model.take_as(evidence);
        let sound = model.outcome(&[], &mut Workspace::new());
        let is_low = |one: &Measured, share: f64| {
            let place = model.quantities.iter().position(|quantity| *quantity == one.quantity);
            let source_v = plant.layout.stages.iter().map(|stage| stage.voltage_v[0]).fold(1.0, f64::max);
            place.is_some_and(|place| sound.values[place].value - one.value > share * source_v)
        };
        let told: Vec<NodeRef> = told_of(evidence, is_low)
            .into_iter()
            .filter_map(|station| plant.layout.station[station])
            .collect();
        if !told.is_empty() {
            let standby = model.state(&BusState::from(StateKind::StandbyDay));
            model.complaint = standby.map(|standby| Complaint { told, standby });
        }
        model
    }

    /// Reads off the first quantities as those of the evidence were.
    pub fn take_as(&mut self, evidence: &Evidence) {
        for (taken, measured) in self.taken.iter_mut().zip(&evidence.measured) {
            *taken = measured.taken;
        }
    }

    fn state(&mut self, wanted: &BusState) -> Option<usize> {
        if let Some(found) = self.states.iter().position(|known| known.state == *wanted) {
            return Some(found);
        }
        self.states.push(State::new(self.plant, wanted)?);
        Some(self.states.len() - 1)
    }

    fn faulted(&self, effects: &[Effect], workspace: &mut Workspace) -> Vec<Faulted<'_, 'p, 'a>> {
        self.states.iter().map(|state| state.with(effects, workspace)).collect()
    }

    /// What a fault makes of the enquiry.
    pub fn outcome(&self, effects: &[Effect], workspace: &mut Workspace) -> Outcome {
        let faulted = self.faulted(effects, workspace);
        let values = self
            .quantities
            .iter()
            .zip(&self.state_of)
            .zip(&self.taken)
            .map(|((quantity, state), taken)| {
                let found = match state {
                    Some(state) => faulted[*state].read(quantity),
                    None => read_alone(self.plant, quantity, effects),
                };
                found.unwrap_or(Predicted { value: 0.0, own: 1e3, range: 0.0 }).taken(*taken)
            })
            .collect();
        let shows = self.symptoms.iter().map(|told| told.shows(&faulted)).collect();
        let noticing = self.complaint.as_ref().and_then(|complaint| {
            let state = complaint.standby;
            complaint.noticing(self.plant.layout, &self.states[state].as_drawn(), &faulted[state])
        });
        let regime = faulted.iter().fold(0, |code, state| state.regime(code));
        Outcome { values, shows, noticing, regime }
    }

    /// How every quantity depends on every factor with a fault.
    pub fn rows(&self, effects: &[Effect], workspace: &mut Workspace) -> Vec<Vec<f64>> {
        let faulted = self.faulted(effects, workspace);
        let row = |(quantity, state): (&Quantity, &Option<usize>)| match state {
            Some(state) => faulted[*state].row(quantity),
            None => row_alone(self.plant, quantity, effects),
        };
        self.quantities.iter().zip(&self.state_of).map(row).collect()
    }

    /// Logarithm of the probability that what was told is told, given how each shows by voltage.
    pub fn log_told(
        &self,
        rates: &Rates,
        hypothesis: &Hypothesis,
        outcome: &Outcome,
        design_fails: bool,
    ) -> f64 {
        let told = |(told, shows): (&Told, &f64)| {
            let kind = hypothesis.cause.kind;
            let symptom = told.symptom.kind;
            if symptom == SymptomKind::Works {
                let by_table = match kind {
                    _ if !hypothesis.concerns(self.plant, told.at) => 0.0,
                    // Of the kinds that no voltage shows, those at a station itself are noticed there.
                    Kind::SettingWrong | Kind::ForeignFamily | Kind::RingerMuted | Kind::DisplayFailed => 0.9,
                    Kind::HandsetFailed | Kind::StationDead | Kind::StationRemoved => 0.95,
                    _ => 0.2,
                };
                return ((1.0 - shows) * (1.0 - by_table)).max(0.01);
            }
            if symptom == SymptomKind::Found {
                // Whom a list names has power and a setting of its own.
                let by_table = match kind {
                    _ if hypothesis.at != Some(told.at) => 0.0,
                    Kind::SettingWrong | Kind::SettingDuplicate => 0.5,
                    Kind::StationDead
                    | Kind::StationRemoved
                    | Kind::DoorStationDead
                    | Kind::ForeignFamily => 0.97,
                    _ => 0.0,
                };
                return ((1.0 - shows) * (1.0 - by_table)).max(0.01);
            }
            let anyway = rates.told_anyway(symptom);
            let table = if hypothesis.concerns(self.plant, told.at) {
                match kind {
                    Kind::DesignAsDrawn if design_fails => 0.4,
                    Kind::StationDead | Kind::DoorStationDead | Kind::StationRemoved
                        if is_silent(symptom) =>
                    {
                        0.9
                    }
                    _ => rates.told(symptom, kind),
                }
            } else {
                anyway
            };
            (1.0 - (1.0 - table) * (1.0 - 0.95 * shows)).max(anyway)
        };
        let log: f64 = self.symptoms.iter().zip(&outcome.shows).map(told).map(f64::ln).sum();
        log + match (outcome.noticing, &self.complaint) {
            (Some(noticing), _) => noticing.log(rates.told_of),
            // Told of there, or measured there, for no reason that this cause would give: it might have been of any station.
            (None, Some(complaint))
                if !complaint.told.iter().any(|at| hypothesis.concerns(self.plant, *at)) =>
            {
                -self.stations().ln()
            }
            _ => 0.0,
        }
    }

    /// Whether something that was told points to a cause: it shows by voltage, or the cause is one of those that show so there.
    pub fn points_to(&self, rates: &Rates, hypothesis: &Hypothesis, outcome: &Outcome) -> bool {
        let mut bad = self.symptoms.iter().zip(&outcome.shows).filter(|(told, _)| told.symptom.kind.is_bad());
        bad.any(|(told, shows)| {
            let symptom = told.symptom.kind;
            let anyway = rates.told_anyway(symptom);
            0.95 * shows > anyway
                || (hypothesis.concerns(self.plant, told.at)
                    && (rates.told(symptom, hypothesis.cause.kind) > anyway
                        || hypothesis.cause.kind == Kind::DesignAsDrawn))
        })
    }

    /// Whether anything bad was told.
    pub fn is_told_of(&self) -> bool {
        self.symptoms.iter().any(|told| told.symptom.kind.is_bad())
    }

    fn stations(&self) -> f64 {
        self.plant.layout.station.iter().flatten().count().max(1) as f64
    }

    /// What is told of a cause that the list does not have, and that it is told of just these stations: it may be anywhere.
    pub fn log_told_of_none(&self) -> f64 {
        let place = if self.complaint.is_some() { -self.stations().ln() } else { 0.0 };
        self.symptoms.len() as f64 * TOLD_OF_NONE.ln() + place
    }
}

/// Symptoms of a station that gives no sign.
fn is_silent(symptom: SymptomKind) -> bool {
    matches!(
        symptom,
        SymptomKind::Dead
            | SymptomKind::NotFound
            | SymptomKind::DoesNotRing
            | SymptomKind::NoPicture
            | SymptomKind::NoSpeech
    )
}

impl Told {
    /// Probability that the symptom shows by voltage alone.
    fn shows(&self, faulted: &[Faulted<'_, '_, '_>]) -> f64 {
        let (cut_off_v, least_v, source_v) = self.limits_v;
        let width_v = SOFT_LIMIT * source_v;
        let voltage = |state: Option<usize>| state.map(|state| faulted[state].voltage(self.at));
        let below = |limit_v: f64, voltage: Option<f64>| {
            voltage.map_or(0.0, |voltage| normal((limit_v - voltage.abs()) / width_v))
        };
        let is_off = |state: Option<usize>| state.is_some_and(|state| faulted[state].is_off(self.at));
        let dead = below(cut_off_v, voltage(self.standby));
        let drops = below(cut_off_v, voltage(self.called)).max(if is_off(self.called) { 0.8 } else { 0.0 });
        let restarts = (1.0 - dead) * drops.max(0.5 * below(least_v, voltage(self.called)));
        match self.symptom.kind {
            SymptomKind::Restarts => restarts.max(if is_off(self.standby) { 0.5 } else { 0.0 }),
            SymptomKind::Dim => (1.0 - dead) * below(least_v, voltage(self.called)),
            SymptomKind::Found => dead,
            SymptomKind::Works => 1.0 - (1.0 - dead) * (1.0 - below(least_v, voltage(self.called))),
            symptom if is_silent(symptom) => dead.max(if is_off(self.standby) { 0.5 } else { 0.0 }),
            _ => 0.0,
        }
    }
}
