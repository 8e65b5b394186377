//! What is known of one text of the site file, whatever revisions have it.

use crate::catalogues::Catalogues;
use latchline_assess::jobs::Jobs;
use latchline_assess::{Assessing, Assessment, Effort, Memory, Wanted};
use latchline_finding::{Finding, Sourced, Sources};
use latchline_reach::Headroom;
use latchline_site::Resolved;
use latchline_site::edit::Places;
use latchline_site::model::Site;
use std::sync::{Arc, OnceLock};

/// What is known of one text.
#[derive(Debug)]
pub(crate) struct Known {
    /// Its number among the texts of the session.
    pub number: u64,
    /// This text with the catalogues.
    pub sources: Sources,
    /// Those that hold for it.
    pub catalogues: Catalogues,
    /// Findings of reading.
    pub reading: Vec<Finding>,
    /// Where the values of the text stand.
    pub places: Places,
    /// Catalogues that the text names.
    pub catalogue_paths: Vec<Sourced<String>>,
    pub site: Option<Arc<Site>>,
    /// Results, for work on this text.
    pub memory: Memory,
    pub assessing: Option<Assessing<Arc<Site>>>,
    /// The assessment with remedies.
    pub remedies: OnceLock<Assessment>,
    pub jobs: OnceLock<Jobs>,
    pub headroom: OnceLock<Vec<Headroom>>,
}

impl Known {
    /// Nothing but what was read is known yet. Work on it is given up while it is not `wanted`.
    pub fn new(
        number: u64,
        sources: Sources,
        catalogues: Catalogues,
        resolved: Resolved,
        memory: &Memory,
        wanted: Wanted,
    ) -> Self {
        Known::of_branch(number, sources, catalogues, resolved, &memory.wanted(wanted))
    }

    /// The same, for work that is wanted as long as that which the memory is of.
    pub fn of_branch(
        number: u64,
        sources: Sources,
        catalogues: Catalogues,
        resolved: Resolved,
        memory: &Memory,
    ) -> Self {
        let memory = memory.clone();
        let site = resolved.site.map(Arc::new);
        let assessing = site.as_ref().map(|site| {
            Assessing::new(Arc::clone(site), Effort::Whole, &memory).with_reading(resolved.findings.clone())
        });
        Known {
            number,
            sources,
            catalogues,
            reading: resolved.findings,
            places: resolved.places,
            catalogue_paths: resolved.catalogue_paths,
            site,
            memory,
            assessing,
            remedies: OnceLock::new(),
            jobs: OnceLock::new(),
            headroom: OnceLock::new(),
        }
    }
}
