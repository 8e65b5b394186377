//! No text makes the reader panic, hang or stay silent.

use latchline_finding::Sources;
use latchline_site::{ParsedSite, Resolved, builtin_catalogue, resolve};
use proptest::prelude::*;
use std::time::Instant;

const TWELVE_FLATS: &str = include_str!("../../../docs/examples/twelve-flats.toml");

/// Resolves a text as a site file, and as a catalogue too.
fn both(text: &str) -> (Resolved, Resolved) {
    let mut sources = Sources::new();
    let catalogue = sources.add("built-in", builtin_catalogue().1);
    let good = sources.add("good.toml", TWELVE_FLATS);
    let hostile = sources.add("hostile.toml", text);
    ParsedSite::new(hostile, sources.file(hostile)).catalogue_paths();
    (resolve(&sources, hostile, &[catalogue]), resolve(&sources, good, &[catalogue, hostile]))
}

fn told(resolved: &Resolved) -> bool {
    resolved.site.is_some() || !resolved.findings.is_empty()
}

/// Cuts a text at a character.
fn cut(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn random_text(text in "(\\PC|[\\x00-\\x1f=\\[\\]{}\"'.,#]){0,120}") {
        let (site, catalogue) = both(&text);
        prop_assert!(told(&site) && told(&catalogue));
    }

    #[test]
    fn cut_and_changed_files(from in 0..2500_usize, length in 0..40_usize, put in "[\\x00-\\x7fä]{0,6}", catalogue in any::<bool>()) {
        let base = if catalogue { builtin_catalogue().1 } else { TWELVE_FLATS };
        let start = cut(base, from * if catalogue { 12 } else { 1 });
        let end = cut(base, start + length).max(start);
        let changed = format!("{}{put}{}", &base[..start], &base[end..]);
        let (site, other) = both(&changed);
        prop_assert!(told(&site) && told(&other));
        let (site, other) = both(&base[..start]);
        prop_assert!(told(&site) && told(&other));
    }
}

/// Seconds that one resolve may take here, unoptimised and on a busy machine.
const PATIENCE_S: f64 = 25.0;

#[expect(clippy::disallowed_methods, reason = "this test is about time")]
fn in_time(name: &str, text: &str) -> Resolved {
    let start = Instant::now();
    let (site, catalogue) = both(text);
    let took = start.elapsed().as_secs_f64();
    assert!(took < PATIENCE_S, "{name}: {took} s");
    assert!(told(&catalogue), "{name}");
    assert!(site.site.is_none(), "{name}");
    assert!(site.findings.len() <= 2001, "{name}");
    site
}

#[test]
fn deep_nesting_is_refused_before_the_stack_ends() {
    for (open, close) in [("[", "]"), ("{a=", "}"), ("[{a=", "}]")] {
        let text = format!("x = {}{}", open.repeat(200_000), close.repeat(200_000));
        let resolved = in_time(open, &text);
        assert!(resolved.findings.iter().any(|finding| finding.code.0 == "nested-too-deeply"), "{open}");
    }
    let dotted = format!("{}b = 1", "a.".repeat(500_000));
    let resolved = in_time("dotted", &dotted);
    assert!(resolved.findings.iter().any(|finding| finding.code.0 == "nested-too-deeply"));
    in_time("header", &format!("[{}b]", "a.".repeat(500_000)));
}

#[test]
fn large_and_repetitive_files_stay_linear() {
    let too_large = " ".repeat(8 * 1024 * 1024 + 1);
    assert_eq!(in_time("too large", &too_large).findings[0].code.0, "file-too-large");
    in_time("brackets", &"]".repeat(400_000));
    in_time("quotes", &"\"\n".repeat(400_000));
    in_time("nuls", &"\0".repeat(1_000_000));
    in_time("one key again", &"a = 1\n".repeat(200_000));
    let rows = |row: &dyn Fn(usize) -> String, count: usize| (0..count).map(row).collect::<String>();
    in_time("unknown keys", &rows(&|row| format!("k{row} = 1\n"), 200_000));
    in_time("one wrong name", &format!("{}x = 1", "n".repeat(2_000_000)));
    let dwellings = rows(&|row| format!("d{row} = {{}}\n"), 60_000);
    let wrong_stops =
        rows(&|row| format!("r{row} = {{ from = \"q{row}\", to = \"z{row}\", length = \"1 m\" }}\n"), 40_000);
    let head = "[site]\ntitle = \"t\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n";
    in_time("wrong references", &format!("{head}[dwellings]\n{dwellings}[runs]\n{wrong_stops}"));
    let entrances = rows(&|row| format!("e{row} = {{}}\n"), 60_000);
    let many = in_time(
        "everyone calls everyone",
        &format!("{head}[dwellings]\n{dwellings}[entrances]\n{entrances}"),
    );
    assert!(many.findings.iter().any(|finding| finding.code.0 == "site-too-large"));
    let ring = rows(
        &|row| {
            format!("r{row} = {{ from = \"d{row}\", to = \"d{}\", length = \"1 m\" }}\n", (row + 1) % 60_000)
        },
        60_000,
    );
    let rings = in_time("one great ring", &format!("{head}[dwellings]\n{dwellings}[runs]\n{ring}"));
    assert!(rings.findings.iter().any(|finding| finding.code.0 == "wiring-loop"));
    let back = rows(&|row| format!("[x.a{row}.b]\n"), 4_900) + &rows(&|row| format!("[x.a{row}]\n"), 4_900);
    in_time("headers in reverse", &back);
    let many = in_time("headers", &rows(&|row| format!("[x.a{row}]\n"), 300_000));
    assert_eq!(many.findings[0].code.0, "too-many-tables");
}
