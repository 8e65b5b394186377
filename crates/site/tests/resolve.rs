//! Whole files through `resolve`: what a site becomes, and what is told of a bad one.

use latchline_finding::{Argument, Finding, Severity, Sources};
use latchline_site::catalogue::OwnPrice;
use latchline_site::model::{RunStart, Site};
use latchline_site::{LoadedCatalogues, Resolved, builtin_catalogue, resolve};

const TWELVE_FLATS: &str = include_str!("../../../docs/examples/twelve-flats.toml");

fn resolved(text: &str) -> (Sources, Resolved) {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let site = sources.add("site.toml", text);
    let resolved = resolve(&sources, site, &[catalogue]);
    (sources, resolved)
}

fn site(text: &str) -> Site {
    let (_, resolved) = resolved(text);
    resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings))
}

/// The text that a finding's caret would underline.
fn pointed<'s>(sources: &'s Sources, finding: &Finding) -> &'s str {
    let span = finding.origin.span().expect("a place in a file");
    &sources.file(span.file).text[span.range()]
}

#[test]
fn the_worked_example_resolves_without_a_finding() {
    let (_, resolved) = resolved(TWELVE_FLATS);
    assert_eq!(resolved.findings, []);
    let site = resolved.site.unwrap();
    assert_eq!((site.dwellings.len(), site.stations.len(), site.runs.len()), (12, 15, 5));
    assert_eq!(site.runs[1].from, RunStart::Port { box_index: 0, port: 1 });
    let lengths: Vec<f64> =
        site.runs[1].sections.iter().map(|section| section.length.value.as_metres()).collect();
    assert_eq!(lengths, [8.0, 6.0, 6.0, 6.0, 6.0, 6.0]);
    assert_eq!(site.entrances[0].calls.dwellings.len(), 12);
    assert_eq!(site.stations[12].id.as_str(), "A-12:2");
}

#[test]
fn every_mistake_is_told_at_its_own_place() {
    let text = TWELVE_FLATS
        .replace("family = \"ostrel-48\"", "family = \"ostrel-84\"")
        .replace("outdoors = true", "outdors = true")
        .replace("A-2 = { place = \"A/G\" }", "A-2 = { place = \"A/9\" }")
        .replace("A-3 = { place = \"A/G\" }", "A-3 = { place = 3 }")
        .replace("length = \"1.5 m\"", "length = \"1,5 m\"")
        .replace("first = \"8 m\"", "first = \"8\"")
        .replace("first = \"14 m\"", "first = \"14 V\"")
        .replace("length = \"9 m\"", "length = \"0 m\"")
        .replace("from = \"D1.4\"", "from = \"D1.5\"")
        .replace("cable = \"pair-0.8\"", "cable = \"pair-08\"")
        .replace("role = \"main\"", "role = \"mian\"")
        .replace("model = \"gate-contact\"", "model = 7");
    let (sources, resolved) = resolved(&text);
    assert!(resolved.site.is_none());
    let mut told: Vec<(&str, &str)> =
        resolved.findings.iter().map(|finding| (finding.code.0, pointed(&sources, finding))).collect();
    told.sort_unstable();
    let mut expected = vec![
        ("unknown-name", "\"ostrel-84\""),
        ("unknown-key", "outdors"),
        ("unknown-name", "\"A/9\""),
        ("wrong-type", "3"),
        ("decimal-comma", "\"1,5 m\""),
        ("unit-missing", "\"8\""),
        ("wrong-unit", "\"14 V\""),
        ("out-of-range", "\"0 m\""),
        ("no-such-port", "\"D1.5\""),
        ("unknown-name", "\"pair-08\""),
        ("unknown-word", "\"mian\""),
        ("wrong-type", "7"),
    ];
    expected.sort_unstable();
    assert_eq!(told, expected);
    let cable = resolved.findings.iter().find(|finding| pointed(&sources, finding) == "\"pair-08\"").unwrap();
    assert!(matches!(cable.argument("nearest"), Some(Argument::Texts(names)) if names[0] == "pair-0.8"));
}

/// Replaces the runs of the example.
fn with_runs(runs: &str) -> String {
    let start = TWELVE_FLATS.find("[runs]").expect("runs");
    format!("{}[runs]\n{runs}\n", &TWELVE_FLATS[..start])
}

const FEED: &str = "feed = { from = \"PS\", to = \"D1\", length = \"1 m\" }";
const ALL: &str = "to = [\"A-1\", \"A-2\", \"A-3\", \"A-4\", \"A-5\", \"A-6\", \"A-7\", \"A-8\", \"A-9\", \"A-10\", \"A-11\", \"A-12\", \"A-12:2\", \"front\", \"gate\"], spacing = \"5 m\"";

fn codes(text: &str) -> Vec<(&'static str, String)> {
    let (_, resolved) = resolved(text);
    let name = |finding: &Finding| finding.element.as_ref().map_or(String::new(), |id| id.to_string());
    resolved.findings.iter().map(|finding| (finding.code.0, name(finding))).collect()
}

#[test]
fn structural_faults_of_the_wiring_are_named() {
    let one = |name: &'static str, element: &str| vec![(name, element.to_string())];
    assert_eq!(codes(&with_runs(&format!("{FEED}\na = {{ from = \"D1.1\", {ALL} }}"))), []);
    let all_but_gate = ALL.replace(", \"gate\"", "");
    assert_eq!(
        codes(&with_runs(&format!("{FEED}\na = {{ from = \"D1.1\", {all_but_gate} }}"))),
        one("not-wired", "gate")
    );
    let two = format!(
        "{FEED}\na = {{ from = \"D1.1\", {all_but_gate} }}\nb = {{ from = \"D1.1\", to = \"gate\", length = \"1 m\" }}"
    );
    assert_eq!(codes(&with_runs(&two)), one("port-used-twice", "b"));
    let dual = format!(
        "{FEED}\na = {{ from = \"D1.1\", {ALL} }}\nb = {{ from = \"D1.2\", to = \"gate\", length = \"1 m\" }}"
    );
    assert_eq!(codes(&with_runs(&dual)), one("fed-twice", "gate"));
    let ring =
        format!("{FEED}\na = {{ from = \"D1.1\", {} }}", ALL.replace("\"gate\"", "\"gate\", \"D1.2\""));
    assert_eq!(codes(&with_runs(&ring)), one("run-ends-at-port", "a"));
    let ring = format!("{FEED}\na = {{ from = \"D1.1\", {} }}", ALL.replace("\"gate\"", "\"gate\", \"A-1\""));
    // The same flat twice in one run is far oftener a slip than a ring, and is told by its name.
    assert_eq!(codes(&with_runs(&ring)), one("fed-twice", "A-1"));
    let own_tail = format!(
        "feed = {{ from = \"D1.2\", to = \"D1\", length = \"1 m\" }}\na = {{ from = \"D1.1\", {ALL} }}"
    );
    let found = codes(&with_runs(&own_tail));
    assert_eq!(found, [("wiring-loop", String::new())]);
    let no_port = format!("{FEED}\na = {{ from = \"D1\", {ALL} }}");
    assert_eq!(codes(&with_runs(&no_port)), one("port-needed", "a"));
    let unfit = format!(
        "{FEED}\na = {{ from = \"D1.1\", {} }}",
        ALL.replace("spacing = \"5 m\"", "lengths = [\"5 m\"]")
    );
    assert_eq!(codes(&with_runs(&unfit)), one("lengths-do-not-fit", "a"));
    let twice = format!("{FEED}\na = {{ from = \"D1.1\", {ALL}, length = \"5 m\" }}");
    assert_eq!(codes(&with_runs(&twice)), one("lengths-given-twice", "a"));
    let none =
        format!("{FEED}\na = {{ from = \"D1.1\", {} }}", ALL.replace("spacing = \"5 m\"", "joints = 1"));
    assert_eq!(codes(&with_runs(&none)), one("length-missing", "a"));
}

#[test]
fn a_cascade_that_feeds_itself_names_its_members() {
    let text = with_runs(&format!(
        "{FEED}\na = {{ from = \"D1.1\", {ALL} }}\nx = {{ from = \"D2.1\", to = \"D3\", length = \"1 m\" }}\n\
         y = {{ from = \"D3.1\", to = \"D2\", length = \"1 m\" }}"
    ))
    .replace(
        "[distributors]",
        "[distributors]\nD2 = { model = \"ostrel-d4\" }\nD3 = { model = \"ostrel-d4\" }",
    );
    let (_, resolved) = resolved(&text);
    let finding = &resolved.findings[0];
    assert_eq!((resolved.findings.len(), finding.code.0), (1, "wiring-loop"));
    let Some(Argument::Elements(members)) = finding.argument("members") else { panic!() };
    assert_eq!(members.iter().map(|id| id.as_str()).collect::<Vec<_>>(), ["D3", "D2"]);
}

#[test]
fn isolating_boxes_have_a_link_and_a_supply_of_their_own() {
    let base = |runs: &str| {
        with_runs(&format!("{FEED}\na = {{ from = \"D1.1\", {} }}\n{runs}", ALL.replace(", \"gate\"", "")))
            .replace("[distributors]", "[distributors]\nI1 = { model = \"ostrel-i2\" }")
            .replace("[supplies]", "[supplies]\nPS2 = { model = \"ostrel-ps-60\" }")
    };
    let gate = "g = { from = \"I1.1\", to = \"gate\", length = \"5 m\" }";
    let link = "l = { from = \"D1.2\", to = \"I1.link\", length = \"5 m\" }";
    let power = "p = { from = \"PS2\", to = \"I1\", length = \"1 m\" }";
    assert_eq!(codes(&base(&format!("{gate}\n{link}\n{power}"))), []);
    let unfed = codes(&base(&format!("{gate}\n{link}")));
    assert!(unfed.contains(&("isolating-box-without-supply", "I1".to_string())), "{unfed:?}");
    let own_signal =
        format!("{}\nl = {{ from = \"I1.2\", to = \"I1.link\", length = \"5 m\" }}\n{power}", gate);
    assert_eq!(codes(&base(&own_signal))[0].0, "wiring-loop");
    let wrong = format!("{gate}\n{power}\nl = {{ from = \"D1.2\", to = \"D1.link\", length = \"5 m\" }}");
    assert!(codes(&base(&wrong)).contains(&("not-isolating", "l".to_string())));
}

#[test]
fn duplicates_show_both_places() {
    let text = TWELVE_FLATS.replace("A-2 = {", "A-1 = {");
    let (sources, resolved) = resolved(&text);
    let finding = resolved.findings.iter().find(|finding| finding.code.0 == "duplicate-key").unwrap();
    assert_eq!(pointed(&sources, finding), "A-1");
    let first = finding.related[0].origin.span().unwrap();
    assert!(first.start < finding.origin.span().unwrap().start);
    assert_eq!(&text[first.range()], "A-1");
    let both = TWELVE_FLATS.replace("gate = { role", "A-1 = { role");
    assert!(codes(&both).iter().any(|(code, element)| *code == "duplicate-name" && element == "A-1"));
}

#[test]
fn catalogues_merge_and_say_where_they_clash() {
    let part = "[cables.pair-9]\ntitle = \"x\"\nsource = \"y\"\ngauge = \"0.9 mm\"\n";
    let with = |first: &str, second: &str| {
        let mut sources = Sources::new();
        let files = [builtin_catalogue().1, first, second].map(|text| sources.add("catalogue", text));
        let site = sources.add("site", TWELVE_FLATS);
        resolve(&sources, site, &files)
    };
    assert!(with(part, "").findings.is_empty());
    let clash = with(part, part);
    assert_eq!(clash.findings[0].code.0, "duplicate-part");
    assert_eq!(clash.findings[0].related.len(), 1);
    let replaced = with(part, &format!("{}replaces = true\n", part.replace("0.9", "1.0")));
    assert!(replaced.findings.is_empty());
    let nothing = with("", &format!("{part}replaces = true\n"));
    assert_eq!(nothing.findings[0].severity, Severity::Warning);
    assert!(nothing.site.is_some(), "a warning does not stand in the way");
}

#[test]
fn an_own_price_of_no_part_is_told() {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let files = [sources.add(name, catalogue)];
    let checked = |part: &str| {
        let prices = [(part.to_string(), OwnPrice::default())].into();
        LoadedCatalogues::with_prices(&sources, &files, prices).checked()
    };
    for part in ["pair-0.8", "ostrel-v4", "ostrel-ps-120", "ostrel-48"] {
        assert_eq!(checked(part), [], "{part}");
    }
    let found = checked("pair-08");
    assert_eq!(
        (found.len(), found[0].code.0, found[0].severity),
        (1, "price-without-part", Severity::Warning)
    );
    let Some(Argument::Texts(nearest)) = found[0].argument("nearest") else { panic!("{found:#?}") };
    assert_eq!(nearest[0], "pair-0.8");
}

#[test]
fn sub_tables_and_inline_tables_say_the_same() {
    let sub = TWELVE_FLATS.replace(
        "gate = { role = \"secondary\", place = \"outdoors\", lock = { model = \"gate-contact\" } }",
        "[entrances.gate]\nrole = \"secondary\"\nplace = \"outdoors\"\n[entrances.gate.lock]\nmodel = \"gate-contact\"",
    );
    assert_ne!(sub, TWELVE_FLATS);
    let (one, other) = (site(TWELVE_FLATS), site(&sub));
    assert_eq!(one.entrances[1].locks[0].model, other.entrances[1].locks[0].model);
    assert_eq!(one.stations.len(), other.stations.len());
}

#[test]
fn what_follows_from_broken_toml_does_not_bury_it() {
    let told = |text: &str| -> Vec<&'static str> {
        let (_, resolved) = resolved(text);
        resolved.findings.iter().map(|finding| finding.code.0).collect()
    };
    // A comma is missing: the keys behind it are lost, which is not said as well.
    let text = TWELVE_FLATS.replace("\"flex-1.5\", length", "\"flex-1.5\" length");
    assert_ne!(text, TWELVE_FLATS);
    assert_eq!(told(&text), ["toml-syntax"]);
    // Nor are the keys under a header that is not closed; mistakes elsewhere still are.
    let text = TWELVE_FLATS.replace("[runs]", "[runs").replace("outdoors = true", "outdors = true");
    let told = told(&text);
    assert_eq!((told[0], told.iter().filter(|code| **code == "unknown-key").count()), ("toml-syntax", 1));
}

/// The length of a run whose loop alone was measured, in metres, and what is told of it.
fn length_by_loop(run: &str) -> (f64, usize, Vec<Finding>) {
    let text = TWELVE_FLATS.replacen("length = \"9 m\"", run, 1);
    assert_ne!(text, TWELVE_FLATS);
    let (_, resolved) = resolved(&text);
    let site = resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings));
    let run = site
        .runs
        .iter()
        .find(|run| run.measured.loop_resistance.is_some())
        .expect("a run whose loop was measured");
    (run.length().as_metres(), run.sections.len(), resolved.findings)
}

/// IEC 60228:2004, greatest resistance of a conductor at 20 °C in ohm/km: class 5 (table 3) 13.3 at 1.5 mm² and 26.0 at 0.75 mm², class 1
/// (table 1) 18.1 at 1 mm². A section has four terminals of 0.01 ohm, a joint two: L = (R - J) p / (2 r), by hand:
///
/// * 1.5 mm², 0.70 ohm: (0.70 - 0.04)/0.0266 = 24.812 m; with two joints (0.70 - 0.08)/0.0266 = 23.308 m;
/// * 1 mm² solid, 1.20 ohm: (1.20 - 0.04)/0.0362 = 32.044 m;
/// * 0.75 mm², two pairs in parallel, 0.50 ohm: (0.50 - 0.02) x 2/0.0520 = 18.462 m;
/// * 1.5 mm² at 40 °C, copper with 0.00393/K: (0.70 - 0.04)/(0.0266 x 1.0786) = 23.004 m.
#[test]
fn a_length_follows_from_the_measured_loop() {
    for (run, by_hand_m) in [
        ("cable = \"flex-1.5\", measured = { loop = \"0.70 ohm\" }", 24.812),
        ("cable = \"flex-1.5\", joints = 2, measured = { loop = \"0.70 ohm\" }", 23.308),
        ("cable = \"solid-1.0\", measured = { loop = \"1.20 ohm\" }", 32.044),
        ("cable = \"flex-0.75\", pairs = 2, measured = { loop = \"0.50 ohm\" }", 18.462),
    ] {
        let (length_m, sections, findings) = length_by_loop(run);
        assert_eq!(sections, 1);
        assert!((length_m - by_hand_m).abs() < 1e-3, "{run}: {length_m}, by hand {by_hand_m}");
        // It is listed as derived.
        let told = findings.iter().find(|finding| finding.code.as_str() == "length-from-loop");
        assert!(told.is_some_and(|told| told.severity == Severity::Advice), "{findings:#?}");
    }
    let hot = TWELVE_FLATS
        .replacen("length = \"9 m\"", "cable = \"flex-1.5\", measured = { loop = \"0.70 ohm\" }", 1)
        .replacen("[buildings]", "[conditions]\nusual_temperature = \"40 °C\"\n[buildings]", 1);
    let site = site(&hot);
    let run = site.runs.iter().find(|run| run.measured.loop_resistance.is_some()).unwrap();
    assert!((run.length().as_metres() - 23.004).abs() < 1e-3, "{}", run.length().as_metres());
}

/// Six stops have six sections, equally long: (6.24 - 6 x 0.04)/0.0266/6 = 37.594 m each of 1.5 mm² (IEC 60228 as above).
#[test]
fn a_chain_measured_as_a_whole_has_equal_sections() {
    let left = "first = \"8 m\", spacing = \"6 m\"";
    let text = TWELVE_FLATS.replacen(left, "cable = \"flex-1.5\", measured = { loop = \"6.24 ohm\" }", 1);
    let site = site(&text);
    let run = site.runs.iter().find(|run| run.measured.loop_resistance.is_some()).unwrap();
    assert_eq!(run.sections.len(), 6);
    assert!(run.sections.iter().all(|section| (section.length.value.as_metres() - 37.594).abs() < 1e-3));
    // A stated length is never replaced: what differs is told by `measured-loop-differs`.
    let (_, stated) = resolved(&TWELVE_FLATS.replacen(
        "length = \"9 m\"",
        "length = \"9 m\", measured = { loop = \"1 ohm\" }",
        1,
    ));
    assert_eq!(stated.findings, []);
}
