//! Files that the phones exported, against the plan that they were made with: what `readings` and `as-built` start from.

use crate::files::read_text;
use crate::load;
use crate::refusal::Result;
use latchline_finding::{Language, Locale, Units, shown};
use latchline_handover::{Options, PackInput, Subject};
use latchline_phone::{Event, Merged, WorkPlan, exported};
use latchline_session::View;
use latchline_site::model::Site;
use latchline_words::commands::ReadingsWords;
use std::io::Write;
use std::path::PathBuf;

/// The plan of a site as it is now.
pub(super) struct Planned<'a> {
    /// The site.
    pub(super) site: &'a Site,
    /// Its steps.
    pub(super) plan: WorkPlan,
    /// In which language and units they are worded.
    pub(super) options: Options,
}

/// What came back.
pub(super) struct FromPhones {
    /// All entries.
    pub(super) merged: Merged,
    /// Whether every file was taken.
    pub(super) is_all: bool,
}

/// The plan; `None` for a site that cannot be judged.
///
/// # Errors
/// If the work was given up.
pub(super) fn plan(view: &View, language: Language) -> Result<Option<Planned<'_>>> {
    let (Some(site), Some(assessment), Some(predicted)) = (view.site(), view.assessment()?, view.readings()?)
    else {
        return Ok(None);
    };
    let stamp = load::stamp(view, None, None);
    let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
    let reading_findings = &assessment.read;
    let given =
        PackInput { site, assessment, readings: &predicted, cut_list: &[], reading_findings, faults: None };
    let plan = WorkPlan::new(&Subject::new(&given, &options, &stamp));
    Ok(Some(Planned { site, plan, options }))
}

/// Says something beside the result.
pub(super) fn tell(words: &str) {
    // Nothing is left to tell it to if standard error is closed.
    let _ = writeln!(std::io::stderr(), "{}", shown::prose(words));
}

/// Reads the files; those that cannot be used are told. `None` if none can.
///
/// # Errors
/// If a file cannot be read.
pub(super) fn take(files: &[PathBuf], plan: &WorkPlan, language: Language) -> Result<Option<FromPhones>> {
    let mut taken = Vec::new();
    let mut names = Vec::new();
    for file in files {
        let name = shown::path(file).to_string();
        match exported::read(&read_text(file, &mut std::io::empty())?, &plan.site) {
            Ok(read) => {
                taken.push(read);
                names.push(name);
            }
            Err(problem) => {
                let why = problem.both();
                tell(&ReadingsWords::NotTaken { file: &name, why: why.of(language) }.say(language));
            }
        }
    }
    if taken.is_empty() {
        return Ok(None);
    }
    let is_all = taken.len() == files.len();
    let merged = Merged::new(&taken);
    for clash in &merged.clashes {
        let says = |event: &Event| event.text.clone().unwrap_or_else(|| event.kind.clone());
        let (kept, other) = (&says(&clash.kept), &says(&clash.other));
        let file = &names[clash.file];
        tell(&ReadingsWords::Clash { id: &clash.kept.id, file, kept, other }.say(language));
    }
    Ok(Some(FromPhones { merged, is_all }))
}
