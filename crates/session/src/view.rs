//! One revision and its stages.

use crate::known::Known;
use crate::revision::Revision;
use crate::standing::Standing;
use latchline_assess::physics_summary::{ToleranceError, ToleranceOptions, ToleranceSummary};
use latchline_assess::rule::Judgement;
use latchline_assess::stage::{WithShortCircuits, WithSignal, WithStartUp, WithVoltages};
use latchline_assess::{Assessing, Assessment, GivenUp, Memory, Readings, VoltageResults, WorkDone};
use latchline_finding::{Edit, FileId, Finding, Sourced, Sources};
use latchline_reach::{Headroom, MoreHere, headroom_while, more_here};
use latchline_remedy::Bench;
use latchline_site::ParsedSite;
use latchline_site::edit;
use latchline_site::model::Site;
use std::sync::Arc;

/// Sampled tolerances, or why so many samples cannot be run.
pub type Tolerances = Result<Vec<ToleranceSummary>, ToleranceError>;

/// One revision. Each stage is worked out when it is first asked for; a clone asks the same revision.
///
/// Stages are `None` where the files cannot be used.
#[derive(Debug, Clone)]
pub struct View {
    pub(crate) revision: Revision,
    pub(crate) site_file: FileId,
    pub(crate) known: Arc<Known>,
    /// Results, for work on this revision.
    memory: Memory,
}

impl View {
    /// What is known of a text, as a revision.
    pub(crate) fn new(revision: Revision, site_file: FileId, known: Arc<Known>) -> Self {
        let memory = known.memory.clone();
        View { revision, site_file, known, memory }
    }

    /// The same revision, for work of which the parts become one answer.
    pub(crate) fn for_one_answer(&self) -> Self {
        View { memory: self.memory.for_one_answer(), ..self.clone() }
    }

    /// Which revision it is: of this is everything that it gives.
    pub fn revision(&self) -> Revision {
        self.revision
    }

    /// The texts.
    pub fn sources(&self) -> &Sources {
        &self.known.sources
    }

    /// The site file among them.
    pub fn site_file(&self) -> FileId {
        self.site_file
    }

    /// The catalogues among them that hold for this text, in their order.
    pub fn catalogues(&self) -> &[FileId] {
        &self.known.catalogues.files
    }

    /// The catalogues that this text names, relative to the site file. One that could not be read is a finding of reading.
    pub fn catalogue_paths(&self) -> &[Sourced<String>] {
        &self.known.catalogue_paths
    }

    /// The text of the site file.
    pub fn text(&self) -> &str {
        &self.known.sources.file(self.site_file).text
    }

    /// The site; `None` if an error of reading stands in the way.
    pub fn site(&self) -> Option<&Arc<Site>> {
        self.known.site.as_ref()
    }

    /// What was found while reading, as it stands without acceptances.
    pub fn reading(&self) -> &[Finding] {
        &self.known.reading
    }

    fn stage<'a, T>(
        &'a self,
        ask: impl FnOnce(&'a Assessing<Arc<Site>>) -> Result<T, GivenUp>,
    ) -> Result<Option<T>, GivenUp> {
        self.known.assessing.as_ref().map(ask).transpose()
    }

    /// Voltages and currents.
    ///
    /// # Errors
    /// [`GivenUp`] if a newer revision has come.
    pub fn voltages(&self) -> Result<Option<WithVoltages<'_>>, GivenUp> {
        self.stage(Assessing::voltages)
    }

    /// What voltages and currents alone say.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn voltage_results(&self) -> Result<Option<VoltageResults>, GivenUp> {
        self.known.assessing.as_ref().map(Assessing::voltage_results).transpose()
    }

    /// Signals.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn signal(&self) -> Result<Option<WithSignal<'_>>, GivenUp> {
        self.stage(Assessing::signal)
    }

    /// Power return.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn start_up(&self) -> Result<Option<WithStartUp<'_>>, GivenUp> {
        self.stage(Assessing::start_up)
    }

    /// Short circuits.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn short_circuit(&self) -> Result<Option<WithShortCircuits<'_>>, GivenUp> {
        self.stage(Assessing::short_circuits)
    }

    /// What the rules report whose stages are in, without waiting for others.
    pub fn rules(&self) -> Option<Judgement> {
        self.known.assessing.as_ref().map(Assessing::reports_so_far)
    }

    /// What is known of the verdict now, without waiting for anything.
    pub fn standing(&self) -> Standing {
        match &self.known.assessing {
            None => Standing::Unusable,
            Some(assessing) => assessing.verdict_so_far().into(),
        }
    }

    /// Everything but remedies, headroom and tolerance.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn assessment(&self) -> Result<Option<&Assessment>, GivenUp> {
        self.stage(Assessing::assessment)
    }

    /// The bench on which remedies of this revision are tried; `None` where the files cannot be used.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn bench(&self) -> Result<Option<Bench<'_>>, GivenUp> {
        let (Some(site), Some(assessment)) = (self.site(), self.assessment()?) else { return Ok(None) };
        let memory = Arc::new(self.memory.clone());
        let (sources, loaded) = (self.sources(), Arc::clone(&self.known.catalogues.loaded));
        Ok(Some(Bench::with_memory(sources, self.site_file, loaded, site, assessment, memory)))
    }

    /// The assessment, its findings with their remedies.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn remedies(&self) -> Result<Option<&Assessment>, GivenUp> {
        let work = self.for_one_answer();
        if self.known.remedies.get().is_none()
            && let (Some(assessment), Some(bench)) = (self.assessment()?, work.bench()?)
        {
            let (findings, left) = latchline_remedy::with_remedies(&bench);
            // A trial that was given up mends nothing.
            work.still_wanted()?;
            let with = Assessment { findings, remedies_not_sought: left, ..assessment.clone() };
            self.known.remedies.get_or_init(|| with);
        }
        Ok(self.known.remedies.get())
    }

    /// This revision with a change made, to see what comes of it; `None` if the change does not fit or the site is of no use with it. Work on it
    /// is given up with that on this revision.
    pub(crate) fn with_change(&self, change: &Edit) -> Option<View> {
        let text = edit::apply_at(self.text(), &self.known.places, change).ok()?;
        let sources = self.sources().with_text(self.site_file, text);
        let parsed = ParsedSite::new(self.site_file, sources.file(self.site_file));
        let catalogues = self.known.catalogues.clone();
        let resolved = catalogues.loaded.resolve_parsed(&parsed);
        let known = Known::of_branch(self.known.number, sources.clone(), catalogues, resolved, &self.memory);
        let view = View::new(self.revision, self.site_file, Arc::new(known));
        view.site().is_some().then_some(view)
    }

    /// The site with a change made; `None` if the change does not fit or the site is of no use with it.
    pub(crate) fn changed(&self, change: &Edit) -> Option<Site> {
        let text = edit::apply_at(self.text(), &self.known.places, change).ok()?;
        let sources = self.sources().with_text(self.site_file, text);
        self.known.catalogues.loaded.resolve(&sources, self.site_file).site
    }

    /// What was worked out for all revisions so far, not found again.
    pub fn work_done(&self) -> WorkDone {
        self.known.memory.work_done()
    }

    /// That work on this revision is still wanted.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub(crate) fn still_wanted(&self) -> Result<(), GivenUp> {
        self.memory.check()
    }

    /// So many more dwellings with a station of this model, and where they work.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn more_here(&self, model: &str, wanted: usize) -> Result<Option<MoreHere>, GivenUp> {
        let (Some(site), Some(assessment)) = (self.site(), self.assessment()?) else { return Ok(None) };
        let work = self.for_one_answer();
        let found = more_here(site, assessment, &work.memory, model, wanted);
        work.still_wanted()?;
        Ok(Some(found))
    }

    /// How much more the site carries.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn headroom(&self) -> Result<Option<&[Headroom]>, GivenUp> {
        if self.known.headroom.get().is_none()
            && let (Some(site), Some(assessment)) = (self.site(), self.assessment()?)
        {
            let found = headroom_while(site, assessment, &self.memory.for_one_answer())?;
            self.known.headroom.get_or_init(|| found);
        }
        Ok(self.known.headroom.get().map(Vec::as_slice))
    }

    /// What meters should read.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn readings(&self) -> Result<Option<Readings>, GivenUp> {
        self.stage(Assessing::readings)
    }

    /// Samples the tolerances.
    ///
    /// # Errors
    /// As [`View::voltages`].
    pub fn tolerance(&self, options: ToleranceOptions) -> Result<Option<Tolerances>, GivenUp> {
        self.stage(|assessing| assessing.tolerance(options))
    }
}
