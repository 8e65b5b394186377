//! What a fault makes of all that was read and told, ready to be compared.

use crate::alone::{read_alone, row_alone, run_alone};
use crate::complaint::{Complaint, Noticing, told_of};
use crate::effect::Effect;
use crate::evidence::{Evidence, Measured, Symptom, Taken};
use crate::hypothesis::Hypothesis;
use crate::kind::SymptomKind;
use crate::plant::Plant;
use crate::predict::{Faulted, Predicted, State, node};
use crate::quantity::Quantity;
use crate::rates::Rates;
use crate::told::{Telling, Told};
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, StateKind};
use latchline_network::{BusState, Corner, NodeRef};

/// The readings and symptoms of one enquiry over a plant, with the states that they need.
pub(crate) struct Model<'p, 'a> {
    pub plant: &'p Plant<'a>,
    pub quantities: Vec<Quantity>,
    states: Vec<State<'p, 'a>>,
    /// State of each quantity; `None` for a run alone.
    state_of: Vec<Option<usize>>,
    /// What each that is of a run alone reads without a fault: most faults lie elsewhere.
    sound_alone: Vec<Option<Predicted>>,
    /// How each quantity is read off.
    taken: Vec<Taken>,
    symptoms: Vec<Told>,
    /// Of whom is told; `None` where nothing says that it is told of anybody.
    complaint: Option<Complaint>,
    /// Stages of which anything is read or told, with all that feed them or are fed by them: what is elsewhere changes nothing.
    seen: Vec<bool>,
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
            sound_alone: Vec::new(),
            taken: Vec::new(),
            symptoms: Vec::new(),
            complaint: None,
            seen: Vec::new(),
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
            model.sound_alone.push(read_alone(plant, &quantity, &[]));
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
            let who = symptom.station;
            model.symptoms.push(Told { kind: symptom.kind, station: who, at, standby, called, limits_v });
        }
        model.seen = model.seen_stages();
        model
    }

    fn seen_stages(&self) -> Vec<bool> {
        let layout = self.plant.layout;
        let mut seen = vec![false; layout.stages.len()];
        for quantity in &self.quantities {
            let alone = run_alone(quantity).and_then(|run| self.plant.run_stage[run]);
            let live = node(self.plant, quantity.place()).map(|at| at.stage);
            let from = match quantity {
                Quantity::Drop { from, .. } => node(self.plant, *from).map(|at| at.stage),
                _ => None,
            };
            [alone, live, from].into_iter().flatten().for_each(|stage| seen[stage] = true);
        }
        self.symptoms.iter().for_each(|told| seen[told.at.stage] = true);
        loop {
            let mut is_changed = false;
            for (above, stage) in layout.stages.iter().enumerate() {
                for converter in &stage.converters {
                    is_changed |= seen[above] != seen[converter.stage];
                    let either = seen[above] || seen[converter.stage];
                    (seen[above], seen[converter.stage]) = (either, either);
                }
            }
            if !is_changed {
                return seen;
            }
        }
    }

    /// Whether a cause lies where anything that it changes could be read or told.
    pub fn sees(&self, hypothesis: &Hypothesis) -> bool {
        hypothesis.at.is_some_and(|at| self.seen[at.stage]) && hypothesis.is_electrical(self.plant)
    }

    /// Of evidence that has been checked.
    pub fn of(plant: &'p Plant<'a>, evidence: &Evidence) -> Self {
        Model::with(plant, evidence, &[])
    }

    /// The same, and quantities behind those that were read that could be.
    pub fn with(plant: &'p Plant<'a>, evidence: &Evidence, more: &[Quantity]) -> Self {
        let read = evidence.measured.iter().map(|one| &one.quantity);
        let quantities = read.chain(more).cloned().collect();
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
            told.iter().for_each(|at| model.seen[at.stage] = true);
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
        let touched: Vec<usize> = effects.iter().filter_map(|effect| effect.run(self.plant.layout)).collect();
        let is_touched = |quantity: &Quantity| run_alone(quantity).is_some_and(|run| touched.contains(&run));
        let values = self
            .quantities
            .iter()
            .zip(&self.state_of)
            .zip(&self.sound_alone)
            .zip(&self.taken)
            .map(|(((quantity, state), sound), taken)| {
                let found = match state {
                    Some(state) => faulted[*state].read(quantity),
                    None if is_touched(quantity) => read_alone(self.plant, quantity, effects),
                    None => sound.clone(),
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

    /// How these of its quantities depend on every factor with a fault.
    pub fn rows(&self, effects: &[Effect], wanted: &[usize], workspace: &mut Workspace) -> Vec<Vec<f64>> {
        let faulted: Vec<Faulted<'_, 'p, 'a>> =
            self.states.iter().map(|state| state.with_derivatives(effects, workspace)).collect();
        let row = |place: &usize| {
            let quantity = &self.quantities[*place];
            match self.state_of[*place] {
                Some(state) => faulted[state].row(quantity),
                None => row_alone(self.plant, quantity, effects),
            }
        };
        wanted.iter().map(row).collect()
    }

    /// Every one of its quantities.
    pub fn all(&self) -> Vec<usize> {
        (0..self.quantities.len()).collect()
    }

    /// Logarithm of the probability that what was told is told, given how each shows by voltage.
    pub fn log_told(
        &self,
        rates: &Rates,
        hypothesis: &Hypothesis,
        outcome: &Outcome,
        design_fails: bool,
    ) -> f64 {
        self.telling(rates, design_fails).log(hypothesis, &outcome.shows, outcome.noticing)
    }

    /// Whether something that was told points to a cause: it shows by voltage, or the cause is one of those that show so there.
    pub fn points_to(&self, rates: &Rates, hypothesis: &Hypothesis, outcome: &Outcome) -> bool {
        self.telling(rates, false).points_to(hypothesis, &outcome.shows)
    }

    /// Whether anything bad was told.
    pub fn is_told_of(&self) -> bool {
        self.symptoms.iter().any(|told| told.kind.is_bad())
    }

    /// What is told of a cause that the list does not have, and that it is told of just these stations: it may be anywhere.
    pub fn log_told_of_none(&self, rates: &Rates) -> f64 {
        self.telling(rates, false).log_of_none()
    }

    fn telling<'t>(&'t self, rates: &'t Rates, design_fails: bool) -> Telling<'t, 'a> {
        Telling {
            plant: self.plant,
            rates,
            symptoms: &self.symptoms,
            complaint: self.complaint.as_ref(),
            design_fails,
        }
    }
}
