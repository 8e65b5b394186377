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
    assert!(english <= 2 && german <= 2, "English {english}, German {german}");
}

/// The demo's 18 panels fit on two sheets of A4.
#[test]
fn the_profiles_of_the_demo_fill_their_sheets() {
    let site = resolved(DEMO);
    let assessment = latchline_assess::assess(&site);
    assert_eq!(latchline_drawing::profiles(&site, &assessment, &SheetOptions::default()).len(), 2);
}

/// What a card says of a finding about a device or a run is short: every rule has such words, but those whose finding is about the whole site.
#[test]
fn every_rule_has_words_that_fit_on_a_card() {
    const OF_THE_SITE: [&str; 5] =
        ["acceptance-without-match", "country-without-rules", "no-entrance", "no-station", "prices-left-out"];
    for rule in latchline_assess::rules::ALL {
        let code = rule.doc.code.as_str();
        let words = latchline_words::codes::of(code).expect("its words");
        for language in Language::ALL {
            let is_short = words.short(language).chars().count() <= latchline_words::codes::MOST_SIGNS_SHORT;
            assert!(is_short || OF_THE_SITE.contains(&code), "{code}: {}", words.short(language));
        }
    }
}

#[test]
fn two_hundred_dwellings_take_few_sheets() {
    let [english, german] = sheets(TWO_HUNDRED);
    assert!(english <= 11 && german <= 12, "English {english}, German {german}");
}
