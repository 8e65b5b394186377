//! One failing case for each code of reading and resolving, beside the text it points at; and
//! what a finding carries is what its manual page says.

use latchline_finding::{Finding, Sources};
use latchline_site::codes::{CODES, arguments, explain};
use latchline_site::{builtin_catalogue, resolve};
use std::collections::BTreeSet;

const TWELVE_FLATS: &str = include_str!("../../../docs/examples/twelve-flats.toml");

/// Code, text of the example, what it is replaced with, and what the finding points at.
const CASES: &[(&str, &str, &str, &str)] = &[
    ("toml-syntax", "length = \"9 m\"", "length = ", ""),
    ("duplicate-key", "A-2 = {", "A-1 = {", "A-1"),
    ("unknown-key", "outdoors", "outdors", "outdors"),
    ("missing-key", "from = \"PS\", ", "", "feed"),
    ("wrong-type", "outdoors = true", "outdoors = \"yes\"", "\"yes\""),
    ("not-a-quantity", "\"9 m\"", "\"about 9 m\"", "\"about 9 m\""),
    ("not-a-quantity", "\"9 m\"", "nan", "nan"),
    ("unit-missing", "\"9 m\"", "9.5", "9.5"),
    ("unit-missing", "\"9 m\"", "\"9\"", "\"9\""),
    ("decimal-comma", "\"9 m\"", "\"9,5 m\"", "\"9,5 m\""),
    ("unknown-unit", "\"9 m\"", "\"9 mtr\"", "\"9 mtr\""),
    ("wrong-unit", "\"9 m\"", "\"9 V\"", "\"9 V\""),
    ("out-of-range", "\"9 m\"", "\"-9 m\"", "\"-9 m\""),
    ("unknown-word", "\"main\"", "\"front\"", "\"front\""),
    ("bad-name", "title = \"Quillmere House\"\nfamily", "title = \"a\\u0007b\"\nfamily", "\"a\\u0007b\""),
    ("bad-name", "A-2 = {", "\" A-2\" = {", "\" A-2\""),
    ("bad-name", "[runs]", "[cables.old-0.5]\ntitle = \"old\"\n[runs]", "old-0"),
    ("look-alike-name", "A-2 = {", "\"A\\u200B-2\" = {", "\"A\\u200B-2\""),
    ("look-alike-name", "A-2 = {", "\"А-1\" = {", "\"А-1\""),
    ("look-alike-name", "[buildings]\n", "[buildings]\n\"А\" = { floors = [\"G\"] }\n", "\"А\""),
    (
        "floors-upside-down",
        "floors = [\"G\", \"1\", \"2\", \"3\"]",
        "floors = [\"3\", \"2\", \"1\", \"G\"]",
        "\"3\"",
    ),
    ("duplicate-name", "gate = { role", "A-2 = { role", "A-2"),
    ("unknown-name", "\"pair-0.8\"", "\"pair-0.9\"", "\"pair-0.9\""),
    ("unknown-name", "\"A-12:2\"", "\"A-12:3\"", "\"A-12:3\""),
    ("unknown-name", "place = \"A/3\", ", "place = \"A/x/3\", ", "\"A/x/3\""),
    ("wrong-kind-of-part", "door_station = \"ostrel-dv1\"", "door_station = \"ostrel-v7\"", "\"ostrel-v7\""),
    ("wrong-kind-of-part", "model = \"ostrel-d4\"", "model = \"ostrel-t4\"", "\"ostrel-t4\""),
    ("bad-name", "title = \"Quillmere House\"\nfamily", "title = \" \"\nfamily", "\" \""),
    (
        "values-out-of-order",
        "PS = { model = \"ostrel-ps-120\", ",
        "PS = { model = \"ostrel-ps-120\", ambient = \"10 °C\", coldest_ambient = \"10.1 °C\", ",
        "\"10.1 °C\"",
    ),
    ("calls-do-not-fit", "[buildings]", "[policy]\ncalls_per_hour = 120.5\n[buildings]", "120.5"),
    ("place-without-building", "\"outdoors\"", "\"A/1/2/3\"", "\"A/1/2/3\""),
    ("port-needed", "\"D1.3\"", "\"D1\"", "\"D1\""),
    ("no-such-port", "\"D1.3\"", "\"D1.0\"", "\"D1.0\""),
    ("port-used-twice", "\"D1.3\"", "\"D1.2\"", "\"D1.2\""),
    ("run-ends-at-port", "to = \"gate\"", "to = \"PS\"", "\"PS\""),
    ("not-isolating", "to = \"gate\"", "to = \"D1.link\"", "\"D1.link\""),
    ("length-missing", "length = \"9 m\"", "joints = 1", "door"),
    ("length-missing", "length = \"9 m\"", "measured = { loop = \"0.01 ohm\" }", "door"),
    ("length-from-loop", "length = \"9 m\"", "measured = { loop = \"1 ohm\" }", "\"1 ohm\""),
    ("lengths-do-not-fit", "length = \"9 m\"", "lengths = [\"1 m\", \"8 m\"]", "[\"1 m\", \"8 m\"]"),
    ("lengths-given-twice", "length = \"9 m\"", "length = \"9 m\", spacing = \"1 m\"", "door"),
    ("run-without-stops", "to = \"gate\"", "to = []", "[]"),
    ("fed-twice", "to = \"gate\"", "to = [\"gate\", \"front\"]", "\"front\""),
    ("wiring-loop", "from = \"PS\"", "from = \"A-1\"", "\"D1\""),
    ("not-wired", "A-2 = {", "A-2b = { }\nA-2 = {", "A-2b"),
    (
        "lock-given-twice",
        "lock = { model = \"gate-contact\" }",
        "lock = { model = \"gate-contact\" }, locks = [{ model = \"strike-12\" }]",
        "[{ model = \"strike-12\" }]",
    ),
    (
        "part-cable-twice",
        "lock = { model = \"gate-contact\" }",
        "lock = { model = \"gate-contact\", exit_button = true, cables = [{ to = \"exit-button\", cable = \"pair-0.5\", length = \"2 m\" }, { to = \"exit-button\", cable = \"pair-0.8\", length = \"2 m\" }] }",
        "\"exit-button\"",
    ),
    (
        "door-contact-cable-twice",
        "lock = { model = \"gate-contact\" }",
        "alarm_inputs = [{ kind = \"door\", cable = \"pair-0.5\", length = \"2 m\" }], lock = { model = \"gate-contact\", door_contact = true, cables = [{ to = \"door-contact\", cable = \"pair-0.5\", length = \"2 m\" }] }",
        "\"door-contact\"",
    ),
    (
        "cable-to-no-part",
        "lock = { model = \"gate-contact\" }",
        "lock = { model = \"gate-contact\", cables = [{ to = \"exit-button\", cable = \"pair-0.5\", length = \"2 m\" }] }",
        "\"exit-button\"",
    ),
    (
        "temperatures-out-of-order",
        "[buildings]",
        "[conditions]\nhottest_temperature = \"10 °C\"\n[buildings]",
        "conditions",
    ),
    ("values-out-of-order", "", "", ""),
    (
        "revision-twice",
        "[buildings]",
        "[[revision]]\nmark = \"A\"\ndate = 2026-03-02\nchange = \"first\"\n[[revision]]\nmark = \"A \"\ndate = 2026-04-02\nchange = \"second\"\n[buildings]",
        "\"A \"",
    ),
    (
        "revisions-out-of-order",
        "[buildings]",
        "[[revision]]\nmark = \"A\"\ndate = 2026-03-02\nchange = \"first\"\n[[revision]]\nmark = \"B\"\ndate = 2026-02-28\nchange = \"second\"\n[buildings]",
        "2026-02-28",
    ),
    (
        "bad-name",
        "[buildings]",
        "[[revision]]\nmark = \" \"\ndate = 2026-03-02\nchange = \"first\"\n[buildings]",
        "\" \"",
    ),
];

fn resolve_with(site: &str, extra: &str) -> (Sources, Vec<Finding>) {
    let mut sources = Sources::new();
    let files = [builtin_catalogue().1, extra].map(|text| sources.add("catalogue", text));
    let site = sources.add("site", site);
    let resolved = resolve(&sources, site, &files);
    (sources, resolved.findings)
}

fn pointed<'s>(sources: &'s Sources, finding: &Finding) -> &'s str {
    let span = finding.origin.span().expect("a place in a file");
    &sources.file(span.file).text[span.range()]
}

/// What a finding carries must be what its page promises, and nothing else.
fn check_against_page(finding: &Finding) {
    let page = explain(finding.code.0).unwrap_or_else(|| panic!("{} has no page", finding.code));
    assert_eq!(finding.severity, page.severity, "{}", finding.code);
    for (name, _) in &finding.arguments {
        assert!(
            arguments(page.code).iter().any(|promised| promised.trim_end_matches('?') == *name),
            "{} carries {name}",
            finding.code
        );
    }
    for promised in arguments(page.code).iter().filter(|promised| !promised.ends_with('?')) {
        assert!(finding.argument(promised).is_some(), "{} lacks {promised}", finding.code);
    }
}

#[test]
fn each_code_has_a_case_that_points_at_its_cause() {
    for (code, right, wrong, place) in CASES.iter().filter(|case| !case.1.is_empty()) {
        let text = TWELVE_FLATS.replacen(right, wrong, 1);
        assert_ne!(text, TWELVE_FLATS, "{right} is in the example");
        let (sources, findings) = resolve_with(&text, "");
        findings.iter().for_each(check_against_page);
        let finding = findings
            .iter()
            .find(|finding| finding.code.0 == *code)
            .unwrap_or_else(|| panic!("{wrong}: {findings:#?}"));
        if !place.is_empty() {
            let at = pointed(&sources, finding);
            assert!(at == *place || at == format!("[{place}]"), "{code}: points at {at}");
        }
    }
}

#[test]
fn values_that_contradict_each_other_are_told() {
    let model = |keys: &str| {
        format!(
            "[boxes.b]\ntitle = \"b\"\nsource = \"s\"\nfamily = \"ostrel-48\"\nrole = \"distributor\"\nkind = \"transparent\"\nports = 2\n{keys}"
        )
    };
    let codes = |keys: &str| {
        let (_, findings) = resolve_with(TWELVE_FLATS, &model(keys));
        findings.iter().for_each(check_against_page);
        findings.iter().map(|finding| finding.code.0).collect::<Vec<_>>()
    };
    assert_eq!(codes("least_voltage = \"50 V\"\nhighest_voltage = \"40 V\""), ["values-out-of-order"]);
    assert_eq!(
        codes("least_voltage = \"40 V\"\nhighest_voltage = \"40 V\""),
        [""; 0],
        "the limit itself is allowed"
    );
}

#[test]
fn a_kind_can_make_a_key_necessary() {
    let part = "[boxes.b]\ntitle = \"b\"\nsource = \"s\"\nfamily = \"ostrel-48\"\nrole = \"distributor\"\nports = 2\n";
    let count = |kind: &str| resolve_with(TWELVE_FLATS, &format!("{part}kind = \"{kind}\"")).1.len();
    assert_eq!((count("transparent"), count("port-limited"), count("regenerated")), (0, 1, 2));
}

#[test]
fn a_mistake_in_a_default_is_told_once_and_a_bad_part_does_not_spread() {
    let (_, findings) =
        resolve_with(&TWELVE_FLATS.replace("\"ostrel-v4\"\ndoor", "\"ostrel-v44\"\ndoor"), "");
    assert_eq!(findings.len(), 1, "not once for each dwelling: {findings:#?}");
    let part = "[cables.mine]\ntitle = \"m\"\nsource = \"s\"\ngauge = \"0.8\"\n";
    let (_, findings) = resolve_with(&TWELVE_FLATS.replace("cable = \"pair-0.8\"", "cable = \"mine\""), part);
    assert_eq!(findings.iter().map(|finding| finding.code.0).collect::<Vec<_>>(), ["unit-missing"]);
}

#[test]
fn a_station_that_draws_less_in_use_is_pointed_out() {
    let codes = |loads: &str| {
        let station = format!(
            "[stations.s]\ntitle = \"s\"\nsource = \"s\"\nfamily = \"ostrel-48\"\nkind = \"indoor\"\nmedia = \"audio\"\nloop_through = \"bridged\"\n\
             load_tolerance = \"5 %\"\nleast_voltage = \"36 V\"\nleast_standby_voltage = \"36 V\"\n{loads}"
        );
        let (_, findings) = resolve_with(TWELVE_FLATS, &station);
        findings.iter().for_each(check_against_page);
        findings.iter().map(|finding| finding.code.0).collect::<Vec<_>>()
    };
    let fall = "load-falls-in-use";
    assert_eq!(codes("standby = \"85 mA\"\nringing = \"90 mA\"\ntalking = \"22 mA\""), [fall]);
    assert_eq!(codes("standby = \"2 W\"\nringing = \"1 W\"\ntalking = \"1.9 W\""), [fall, fall]);
    // More ohms draw less.
    assert_eq!(codes("standby = \"270 ohm\"\nringing = \"390 ohm\"\ntalking = \"200 ohm\""), [fall]);
    // 0.4 W are 11.1 mA at 36 V and 7.4 mA at 54 V, one and a half times that: 6 mA are less at both, 9 mA at one only.
    assert_eq!(codes("standby = \"0.4 W\"\nringing = \"9 mA\"\ntalking = \"6 mA\""), [fall]);
    // 10 kohm draw 3.6 mA at 36 V and 5.4 mA at 54 V.
    assert_eq!(codes("standby = \"6 mA\"\nringing = \"10 kohm\"\ntalking = \"1 W\""), [fall]);
    // As much is no less; 1 W is 27.8 mA at 36 V and 18.5 mA at 54 V.
    assert_eq!(codes("standby = \"1 W\"\nringing = \"1 W\"\ntalking = \"20 mA\""), [""; 0]);
}

#[test]
fn a_long_list_is_cut_and_counted() {
    let many: String = (0..5000).map(|row| format!("k{row} = 1\n")).collect();
    let (_, findings) = resolve_with(&format!("{many}{TWELVE_FLATS}"), "");
    let last = findings.last().expect("findings");
    assert_eq!((findings.len(), last.code.0), (2001, "too-many-findings"));
    check_against_page(last);
    assert_eq!(last.argument("count"), Some(&latchline_finding::Argument::from(3000_usize)));
}

#[test]
fn a_byte_order_mark_moves_no_caret() {
    let text = format!("\u{feff}{}", TWELVE_FLATS.replace("outdoors", "outdors"));
    let (sources, findings) = resolve_with(&text, "");
    assert_eq!(pointed(&sources, &findings[0]), "outdors");
}

#[test]
fn every_code_of_resolving_has_a_case() {
    let cased: BTreeSet<&str> = CASES.iter().map(|case| case.0).collect();
    // Tested elsewhere: whole files and catalogues, isolating boxes, addresses.
    let elsewhere = [
        "file-too-large",
        "nested-too-deeply",
        "too-many-tables",
        "too-many-findings",
        "site-too-large",
        "duplicate-part",
        "replaces-nothing",
        "price-without-part",
        "catalogue-not-read",
        "load-falls-in-use",
        "isolating-box-without-supply",
        "two-main-entrances",
        "extension-without-room",
        "too-many-buildings",
        "addresses-exhausted",
    ];
    for doc in CODES {
        let code = doc.code.0;
        assert!(
            cased.contains(code) || elsewhere.contains(&code) || code.starts_with("address-"),
            "{code} has no case"
        );
    }
}
