//! The text of a site file: read, checked, told in every form, as `latchline check` and `addresses` do.

use super::house::{self, LANGUAGES};
use latchline_report::{Look, Report, addresses};
use latchline_session::View;
use latchline_site::addresses::assign;

/// Stations up to which a site is assessed: what is to be found here is no matter of size.
const MOST_ASSESSED: usize = 40;
/// Stations up to which remedies and jobs are looked for, which takes a whole check for each.
const MOST_MENDED: usize = 3;

/// As the text of a site file; what its catalogue holds is looked at by another target.
pub fn site(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    check(&house::session(text, "").view());
}

/// Checks what can be checked, and tells it in every form.
pub fn check(view: &View) {
    let stations = view.site().map_or(0, |site| site.stations.len());
    let assessment = match stations {
        0 => None,
        1..=MOST_MENDED => view.remedies().expect("nothing newer comes"),
        _ if stations <= MOST_ASSESSED => view.assessment().expect("nothing newer comes"),
        _ => None,
    };
    let jobs = if stations <= MOST_MENDED { view.jobs().expect("nothing newer comes") } else { None };
    let read = assessment.map_or(view.reading(), |assessment| &assessment.read);
    let name = &view.sources().file(view.site_file()).name;
    let report = Report::new(name, view.sources(), read, assessment, house::codes())
        .of_site(view.site().map(|site| &**site))
        .with_jobs(jobs);
    house::written(&report);
    if let Some(site) = view.site() {
        let plan = assign(site);
        for language in LANGUAGES {
            addresses::text(site, &plan, &Look::default().in_language(language));
        }
    }
    assert!(view.site().is_some() || !view.reading().is_empty(), "a site that cannot be used is told why");
}
