//! Sites judged from their text, for the tests.
#![allow(dead_code, reason = "each test file uses its part")]

use latchline_assess::{Assessment, assess};
use latchline_finding::{FileId, Finding, Sources};
use latchline_remedy::Bench;
use latchline_session::{Files, Session};
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use std::collections::BTreeSet;

/// A house of three stations in which everything holds.
pub const SMALL: &str = include_str!("small.toml");

/// A site with its texts and its assessment.
pub struct Judged {
    pub sources: Sources,
    pub file: FileId,
    pub catalogues: Vec<FileId>,
    pub site: Site,
    pub assessment: Assessment,
}

impl Judged {
    pub fn session(&self) -> Session {
        let (sources, catalogues) = (self.sources.clone(), self.catalogues.clone());
        Session::new(Files { sources, site_file: self.file, catalogues, named: Default::default() })
    }

    pub fn bench(&self) -> Bench<'_> {
        Bench::new(&self.sources, self.file, &self.catalogues, &self.site, &self.assessment)
    }
}

/// Judges a site with the built-in catalogue.
pub fn judge(text: &str) -> Judged {
    judge_with(text, &[builtin_catalogue().1])
}

/// Judges a site with these catalogues.
pub fn judge_with(text: &str, catalogues: &[&str]) -> Judged {
    let mut sources = Sources::new();
    let catalogues: Vec<FileId> = catalogues.iter().map(|text| sources.add("catalogue", *text)).collect();
    let file = sources.add("site.toml", text);
    let resolved = resolve(&sources, file, &catalogues);
    let site = resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings));
    let assessment = assess(&site);
    Judged { sources, file, catalogues, site, assessment }
}

/// What names findings: code and element.
pub fn keys(findings: &[Finding]) -> BTreeSet<(String, String)> {
    let element = |finding: &Finding| finding.element.as_ref().map(ToString::to_string).unwrap_or_default();
    findings.iter().map(|finding| (finding.code.as_str().to_string(), element(finding))).collect()
}
