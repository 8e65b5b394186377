//! Whether existing cable can stay, in a paragraph.

use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::template::plain;
use latchline_assess::{ExistingRun, Standing, existing_runs};
use latchline_words::report::{ExistingWords, Head};

/// A block that says of every run of existing cable whether it can stay; empty where there is none.
pub(crate) fn existing(report: &Report<'_>, look: &Look) -> String {
    let (Some(site), Some(assessment)) = (report.site, report.assessment) else { return String::new() };
    let runs = existing_runs(site, &assessment.findings);
    if runs.is_empty() {
        return String::new();
    }
    let names = |wanted: &dyn Fn(&Standing) -> bool| -> String {
        let kept = runs.iter().filter(|one| wanted(&one.standing));
        kept.map(|one| plain(one.run.as_str())).collect::<Vec<_>>().join(", ")
    };
    let (stays, measured) =
        (names(&|one| *one == Standing::CanStay), names(&|one| *one == Standing::OnceMeasured));
    let say = |words: ExistingWords<'_>| paragraph(&words.say(look.language), 2, look.width);
    let mut text = format!("{}\n", look.bold(Head::ExistingCable.say(look.language)));
    if !stays.is_empty() {
        text.push_str(&say(ExistingWords::CanStay { runs: &stays }));
    }
    if !measured.is_empty() {
        text.push_str(&say(ExistingWords::OnceMeasured { runs: &measured }));
    }
    for ExistingRun { run, standing } in &runs {
        if let Standing::CannotStay(codes) = standing {
            let codes: Vec<&str> = codes.iter().map(|code| code.as_str()).collect();
            let words = ExistingWords::CannotStay { run: &plain(run.as_str()), codes: &codes.join(", ") };
            text.push_str(&say(words));
        }
    }
    text
}
