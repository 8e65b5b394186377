//! A site while it is being assessed: stage by stage, in any order.

use crate::acceptance;
use crate::assessment::{Assessment, VoltageResults};
use crate::context::{Context, Ground};
use crate::door::{DoorSheet, door_sheets};
use crate::existing::judge_existing;
use crate::grade;
use crate::physics::nuisance;
use crate::physics_summary::{
    ToleranceError, ToleranceOptions, ToleranceSummary, short_circuit_summaries, signal_summaries,
    start_up_summaries, tolerance_summaries,
};
use crate::readings::predicted;
use crate::rule::{Check, Judgement, Rule};
use crate::rules;
use crate::stage::{Stage, WithShortCircuits, WithSignal, WithStartUp, WithVoltages};
use crate::supply::{SupplySheet, supply_sheets};
use crate::verdict::{VerdictSoFar, sort, verdict};
use crate::voltage_summary::{
    device_results, run_currents, run_summaries, source_summaries, state_summaries,
};
use latchline_finding::{Finding, Severity};
use latchline_network::calls::releases_at_once;
use latchline_network::readings::{Predictor, Readings};
use latchline_network::short_circuit::{Nuisance, ShortCircuits, short_circuits_with};
use latchline_network::signal_tree::{CableLengths, SignalSurvey, survey_at};
use latchline_network::start_up::{Effort, StartUps, start_up};
use latchline_network::{GivenUp, Growth, Memory, SearchOptions, StateSpace, WorstStates, worst_states_with};
use latchline_site::model::Site;
use std::borrow::Borrow;
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// The worst of everything, and the trips that it reaches.
#[derive(Debug)]
struct Voltages {
    worst: WorstStates,
    nuisance: Vec<Nuisance>,
}

/// A site while it is being assessed. Each stage is worked out when it is first asked for, and kept; what is asked for
/// in whatever order comes out the same. Findings carry no remedies.
///
/// `S` is the site, borrowed or shared.
#[derive(Debug)]
pub struct Assessing<S> {
    site: S,
    /// Findings met while reading the files.
    reading: Vec<Finding>,
    effort: Effort,
    memory: Memory,
    ground: OnceLock<Ground>,
    space: OnceLock<StateSpace>,
    voltages: OnceLock<Voltages>,
    short_circuits: OnceLock<ShortCircuits>,
    signal: OnceLock<SignalSurvey>,
    start_up: OnceLock<StartUps>,
    /// By rule, in the order of [`rules::ALL`].
    reports: Vec<OnceLock<Judgement>>,
    assessment: OnceLock<Assessment>,
}

impl<S: Borrow<Site> + Sync> Assessing<S> {
    /// Nothing is worked out yet. What `memory` holds of other versions is used, and its work given up when it is no
    /// longer wanted.
    pub fn new(site: S, effort: Effort, memory: &Memory) -> Self {
        Assessing {
            site,
            reading: Vec::new(),
            effort,
            memory: memory.clone(),
            ground: OnceLock::new(),
            space: OnceLock::new(),
            voltages: OnceLock::new(),
            short_circuits: OnceLock::new(),
            signal: OnceLock::new(),
            start_up: OnceLock::new(),
            reports: rules::ALL.iter().map(|_| OnceLock::new()).collect(),
            assessment: OnceLock::new(),
        }
    }

    /// With the findings met while reading the files: they are accepted, and count for the verdict, like those of the rules.
    #[must_use]
    pub fn with_reading(mut self, reading: Vec<Finding>) -> Self {
        self.reading = reading;
        self
    }

    /// The site.
    pub fn site(&self) -> &Site {
        self.site.borrow()
    }

    fn ground(&self) -> &Ground {
        self.ground.get_or_init(|| Ground::new(self.site()))
    }

    fn space(&self) -> &StateSpace {
        self.space.get_or_init(|| StateSpace::new(self.site(), &self.ground().layout))
    }

    fn context(&self) -> Context<'_> {
        self.ground().context(self.site())
    }

    /// Voltages and currents.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted.
    pub fn voltages(&self) -> Result<WithVoltages<'_>, GivenUp> {
        let voltages = kept(&self.voltages, || {
            self.memory.check()?;
            let (site, layout) = (self.site(), &self.ground().layout);
            let options = SearchOptions::default();
            let worst = worst_states_with(site, layout, self.space(), &options, &self.memory)?;
            let nuisance = nuisance(site, layout, &worst);
            Ok(Voltages { worst, nuisance })
        })?;
        let Voltages { worst, nuisance } = voltages;
        Ok(WithVoltages {
            context: self.context(),
            space: self.space(),
            worst,
            nuisance,
            memory: &self.memory,
        })
    }

    /// Short circuits.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted.
    pub fn short_circuits(&self) -> Result<WithShortCircuits<'_>, GivenUp> {
        let short_circuits = kept(&self.short_circuits, || {
            self.memory.check()?;
            short_circuits_with(self.site(), &self.ground().layout, self.space(), &self.memory)
        })?;
        Ok(WithShortCircuits { context: self.context(), short_circuits })
    }

    /// Signals.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted.
    pub fn signal(&self) -> Result<WithSignal<'_>, GivenUp> {
        let signal = kept(&self.signal, || {
            self.memory.check()?;
            let (site, layout) = (self.site(), &self.ground().layout);
            survey_at(site, layout, &CableLengths::ALL, self.effort, &self.memory)
        })?;
        Ok(WithSignal { context: self.context(), signal })
    }

    /// Power return.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn start_up(&self) -> Result<WithStartUp<'_>, GivenUp> {
        let start_up = kept(&self.start_up, || {
            self.memory.check()?;
            start_up(self.site(), &self.ground().layout, self.effort, &self.memory)
        })?;
        Ok(WithStartUp { context: self.context(), start_up })
    }

    /// Works out the stages side by side where there is more than one processor.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted.
    pub fn all_stages(&self) -> Result<(), GivenUp> {
        self.ground();
        let (voltages, (signal, start_up)) = rayon::join(
            || self.voltages().map(drop),
            || rayon::join(|| self.signal().map(drop), || self.start_up().map(drop)),
        );
        voltages.and(signal).and(start_up)?;
        self.short_circuits().map(drop)
    }

    /// Whether a stage is in.
    pub fn is_in(&self, stage: Stage) -> bool {
        match stage {
            Stage::Voltages => self.voltages.get().is_some(),
            Stage::ShortCircuit => self.short_circuits.get().is_some(),
            Stage::Signal => self.signal.get().is_some(),
            Stage::StartUp => self.start_up.get().is_some(),
        }
    }

    /// The stages that are not in.
    pub fn pending(&self) -> Vec<Stage> {
        Stage::ALL.into_iter().filter(|stage| !self.is_in(*stage)).collect()
    }

    /// What the voltages and currents alone say: devices, supplies and the largest current of each run.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted.
    pub fn voltage_results(&self) -> Result<VoltageResults, GivenUp> {
        let voltages = self.voltages()?;
        let devices = device_results(&voltages);
        let sources = source_summaries(&voltages, &self.growth(&voltages)?, &devices);
        let run_currents = run_currents(&voltages);
        Ok(VoltageResults { devices, sources, run_currents })
    }

    /// How much more load every source bears; of a change that is only tried nobody asks.
    fn growth(&self, voltages: &WithVoltages<'_>) -> Result<Growth, GivenUp> {
        let (layout, space) = (voltages.layout, voltages.space);
        match self.effort {
            Effort::Hurried => Ok(Growth::not_asked(layout.stages.len())),
            Effort::Whole => Growth::of(self.site(), layout, space, voltages.worst, &self.memory),
        }
    }

    /// What one rule reports, by its position in [`rules::ALL`]; the stage that it reads is worked out first.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn report(&self, rule: usize) -> Result<&Judgement, GivenUp> {
        kept(&self.reports[rule], || {
            let Rule { doc, check } = rules::ALL[rule];
            let mut report = Judgement::default();
            match check {
                Check::Wiring(check) => check(doc, &self.context(), &mut report),
                Check::Voltages(check) => check(doc, &self.voltages()?, &mut report),
                Check::ShortCircuit(check) => check(doc, &self.short_circuits()?, &mut report),
                Check::Signal(check) => check(doc, &self.signal()?, &mut report),
                Check::StartUp(check) => check(doc, &self.start_up()?, &mut report),
            }
            Ok(report)
        })
    }

    /// Stations that hear too little with the cables at their longest, as the rule on them reports it: the whole of signals finds these too, and
    /// takes three times as long.
    pub(crate) fn too_weak_at_longest(&self) -> Result<Vec<Finding>, GivenUp> {
        let Rule { doc, check: Check::Signal(check) } = rules::signal_too_weak::SIGNAL_TOO_WEAK else {
            return Ok(Vec::new());
        };
        let (site, layout) = (self.site(), &self.ground().layout);
        let signal = survey_at(site, layout, &[CableLengths::Longest], self.effort, &self.memory)?;
        let mut report = Judgement::default();
        check(&doc, &WithSignal { context: self.context(), signal: &signal }, &mut report);
        Ok(report.findings)
    }

    /// What is wrong with the addresses.
    pub(crate) fn address_report(&self) -> Judgement {
        let mut report = Judgement::default();
        rules::addresses::report(&self.context(), &mut report);
        report
    }

    /// What the rules report whose stages are in, in the order of the rules; then what is wrong with the addresses. Nothing is worked out
    /// for it but the wiring. Acceptances that match are marked; whether one matches nothing only the whole can tell.
    pub fn reports_so_far(&self) -> Judgement {
        let mut all = Judgement::default();
        for (index, rule) in rules::ALL.iter().enumerate() {
            if rule.reads().is_none_or(|stage| self.is_in(stage))
                && let Ok(report) = self.report(index)
            {
                all.findings.extend(report.findings.iter().cloned());
                all.not_judged.extend(report.not_judged.iter().cloned());
            }
        }
        rules::addresses::report(&self.context(), &mut all);
        acceptance::mark(self.site(), &mut all.findings);
        all
    }

    /// What can be said of the verdict now. A partial result is never called clean: without every stage it fails already, or it is pending.
    pub fn verdict_so_far(&self) -> VerdictSoFar {
        if let Some(assessment) = self.assessment.get() {
            return VerdictSoFar::Known(assessment.verdict);
        }
        let pending = self.pending();
        if pending.is_empty()
            && let Ok(assessment) = self.assessment()
        {
            return VerdictSoFar::Known(assessment.verdict);
        }
        let mut reading = self.reading.clone();
        acceptance::mark(self.site(), &mut reading);
        let report = self.reports_so_far();
        let mut all = reading.iter().chain(&report.findings);
        if all.any(|finding| finding.severity == Severity::Error && finding.accepted.is_none()) {
            VerdictSoFar::FailsAlready(pending)
        } else {
            VerdictSoFar::Pending(pending)
        }
    }

    /// Everything, whatever was asked for before.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn assessment(&self) -> Result<&Assessment, GivenUp> {
        kept(&self.assessment, || self.put_together())
    }

    /// Everything, without a copy.
    ///
    /// # Errors
    /// [`GivenUp`] if it is no longer wanted.
    pub fn into_assessment(self) -> Result<Assessment, GivenUp> {
        self.assessment()?;
        self.assessment.into_inner().ok_or(GivenUp)
    }

    /// What meters should read at every terminal and run, and the way to the worst device of every source in its worst state.
    ///
    /// # Errors
    /// [`GivenUp`] if the assessment is no longer wanted.
    pub fn readings(&self) -> Result<Readings, GivenUp> {
        let (site, layout, space) = (self.site(), &self.ground().layout, self.space());
        Ok(predicted(&Predictor { site, layout, space }, self.assessment()?))
    }

    /// Samples the tolerances: the probability that the worst device of every supply falls below its limit.
    ///
    /// # Errors
    /// [`GivenUp`] if they are no longer wanted; within, [`ToleranceError`] for a number of samples that cannot be run.
    pub fn tolerance(
        &self,
        options: ToleranceOptions,
    ) -> Result<Result<Vec<ToleranceSummary>, ToleranceError>, GivenUp> {
        let voltages = self.voltages()?;
        self.memory.check()?;
        let (layout, space) = (voltages.layout, voltages.space);
        let wanted = &self.memory.is_wanted().for_one_answer();
        let found = tolerance_summaries(self.site(), layout, space, voltages.worst, options, wanted);
        // What was given up in the middle looks like samples without operating point.
        wanted.check()?;
        Ok(found)
    }

    fn put_together(&self) -> Result<Assessment, GivenUp> {
        self.all_stages()?;
        let site = self.site();
        let (voltages, signal) = (self.voltages()?, self.signal()?);
        let (start_up, short_circuits) = (self.start_up()?, self.short_circuits()?);
        let Judgement { mut findings, not_judged } = self.reports_so_far();
        let mut read = self.reading.clone();
        acceptance::mark(site, &mut read);
        findings.extend(acceptance::idle(site, read.iter().chain(&findings)));
        sort(&mut findings);
        let devices = device_results(&voltages);
        let sources = source_summaries(&voltages, &self.growth(&voltages)?, &devices);
        let mut runs = run_summaries(&voltages, &devices);
        self.memory.check()?;
        let doors = door_sheets(&voltages);
        let supply_sheets = supply_sheets(&voltages);
        let judges_hours: Vec<bool> = supply_sheets.iter().map(SupplySheet::judges_hours).collect();
        let mut assumed: BTreeSet<String> =
            grade::of_site(site, signal.signal, start_up.start_up, &judges_hours).into_iter().collect();
        assumed.extend(doors.iter().flat_map(DoorSheet::assumed));
        assumed.extend(supply_sheets.iter().flat_map(SupplySheet::assumed));
        judge_existing(&signal, &mut runs, &findings, &not_judged, &self.memory)?;
        let verdict = verdict(read.iter().chain(&findings), &not_judged, assumed.is_empty());
        Ok(Assessment {
            title: site.title.clone(),
            verdict,
            assumed: assumed.into_iter().collect(),
            sources,
            runs,
            devices,
            addresses: voltages.addresses.clone(),
            read,
            findings,
            remedies_not_sought: 0,
            not_judged,
            releases_at_once: Some(releases_at_once(voltages.site)).filter(|(_, doors)| *doors > 0),
            states: state_summaries(&voltages),
            doors,
            supply_sheets,
            signal: signal_summaries(&signal),
            start_up: start_up_summaries(&start_up),
            short_circuit: short_circuit_summaries(&short_circuits),
            tolerance: Vec::new(),
        })
    }
}

/// What is kept, or what `work` gives, which is kept unless it was given up.
fn kept<T>(place: &OnceLock<T>, work: impl FnOnce() -> Result<T, GivenUp>) -> Result<&T, GivenUp> {
    match place.get() {
        Some(known) => Ok(known),
        // Who comes second finds the same, mostly remembered.
        None => work().map(|found| place.get_or_init(|| found)),
    }
}
