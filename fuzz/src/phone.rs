//! Files that phones wrote: merged, held against the plan, and made corrections of the site file, as `latchline readings` and
//! `as-built` do.

use super::house::{HOUSE, LANGUAGES, house, session};
use super::site::check;
use latchline_handover::{Options, PackInput, Stamp, Subject};
use latchline_phone::{AsBuilt, Comparison, Merged, WorkPlan, exported};
use std::sync::OnceLock;

/// Stands between two files of one input.
const NEXT_FILE: &str = "\n=== next file\n";
/// Corrections up to which the corrected site is checked.
const MOST_CHECKED: usize = 6;

/// The plan of the house; the same for every input.
fn plan() -> &'static WorkPlan {
    static PLAN: OnceLock<WorkPlan> = OnceLock::new();
    PLAN.get_or_init(|| {
        let view = house();
        let site = view.site().expect("the house can be used");
        let assessment = view.assessment().expect("nothing newer comes").expect("the house can be judged");
        let readings = view.readings().expect("nothing newer comes").expect("the house can be judged");
        let given = PackInput {
            site,
            assessment,
            readings: &readings,
            cut_list: &[],
            reading_findings: &assessment.read,
            faults: None,
        };
        WorkPlan::new(&Subject::new(&given, &Options::default(), &Stamp::of_texts([HOUSE], None, None)))
    })
}

/// As one file or more. `PLAN` and `REVISION` in capitals stand for those of the plan, which change with the program.
pub fn events(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let plan = plan();
    let text = text
        .replace("\"PLAN\"", &format!("\"{}\"", plan.plan))
        .replace("\"REVISION\"", &format!("\"{}\"", plan.revision));
    let mut files = Vec::new();
    for file in text.split(NEXT_FILE) {
        match exported::read(file, &plan.site) {
            Ok(file) => files.push(file),
            Err(problem) => {
                for language in LANGUAGES {
                    assert!(!problem.both().of(language).is_empty(), "it is told why");
                }
            }
        }
    }
    let merged = Merged::new(&files);
    let found = Comparison::new(plan, &merged);
    found.is_clean();
    exported::read(&merged.file(plan).to_string(), &plan.site).expect("what is written can be read again");
    let site = house().site().expect("the house can be used");
    for every in [false, true] {
        let built = AsBuilt::new(site, &found, every);
        if built.corrections.is_empty() || built.corrections.len() > MOST_CHECKED {
            continue;
        }
        let mut session = session(HOUSE, "");
        session.edit(&built.edit()).expect("a correction can be made");
        check(&session.view());
    }
}
