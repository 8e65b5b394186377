//! How many sheets sites of known size take. The bounds are our own: what an installer has to carry may shrink, and
//! grows only with a reason.

use latchline_drawing::{SheetOptions, elevation};
use latchline_finding::{Language, Locale, Sources, Units};
use latchline_site::model::Site;

const DEMO: &str = include_str!("../../latchline/src/demo/site.toml");
/// Invented buildings with 200 dwellings, wired in every way: `drawing_sites.py` of the checks, seed 3.
const TWO_HUNDRED: &str = include_str!("sites/two_hundred.toml");

fn resolved(text: &str) -> Site {
    let mut sources = Sources::new();
    let file = sources.add("site", text.to_string());
    let (name, catalogue) = latchline_site::builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let resolved = latchline_site::resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings))
}

/// Sheets of the elevation in English and German.
fn sheets(text: &str) -> [usize; 2] {
    let site = resolved(text);
    let assessment = latchline_assess::assess(&site);
    [Language::English, Language::German].map(|language| {
        let locale = Locale { language, units: Units::Metric };
        elevation(&site, &assessment, &SheetOptions { locale, ..Default::default() }).len()
    })
}

#[test]
fn the_demo_takes_few_sheets() {
    let [english, german] = sheets(DEMO);
    assert!(english <= 2 && german <= 3, "English {english}, German {german}");
}

#[test]
fn two_hundred_dwellings_take_few_sheets() {
    let [english, german] = sheets(TWO_HUNDRED);
    assert!(english <= 14 && german <= 17, "English {english}, German {german}");
}
