//! What people type wrong, in files and on the command line: one mistake, one message, and what to write instead.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::{Folder, Ran};
use serde_json::Value;

/// Codes of the errors of a site.
fn errors(folder: &Folder, site: &str) -> Vec<String> {
    folder.write("slip.toml", site);
    let ran = folder.run(&["check", "slip.toml", "--format", "json"]);
    assert_eq!(ran.status, 2, "{}{}", ran.out, ran.err);
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    let findings = document["findings"].as_array().unwrap().iter();
    findings
        .filter(|one| one["severity"] == "error")
        .map(|one| one["code"].as_str().unwrap().to_string())
        .collect()
}

/// What is said of it, in one line.
fn said(folder: &Folder) -> String {
    let ran = folder.run(&["check", "slip.toml"]);
    ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn one_line(ran: &Ran) -> String {
    format!("{}{}", ran.out, ran.err).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_mistake_gives_one_error() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    for (from, to, code, help) in [
        ("[dwellings]", "dwellings]", "toml-syntax", "lacks its first bracket"),
        // A name used twice; the name that it took the place of is told with it.
        ("A-2 = {", "A-1 = {", "duplicate-key", "A-2 is used and defined nowhere"),
        ("A-6 = {", "A-6 = { place = \"A/2\" }\nA-6 = {", "duplicate-key", "rename one of the two"),
        ("A-2 = {", "D1 = {", "duplicate-name", "A-2 is used and defined nowhere"),
        ("flats-2 = {", "flats-1 = {", "duplicate-key", "rename one of the two"),
        // A name with a space, as key, as start, as stop, in a list, in a head of a table.
        ("A-6 = {", "Flat 6 = {", "toml-syntax", "in quotes: \"Flat 6\""),
        ("from = \"D1.3\"", "from = Flat 6", "toml-syntax", "in quotes: \"Flat 6\""),
        ("to = \"front\"", "to = Flat 6", "toml-syntax", "in quotes: \"Flat 6\""),
        ("\"A-5\", \"A-6\"", "\"A-5\", Flat 6", "toml-syntax", "in quotes: \"Flat 6\""),
        ("length = \"1.5 m\"", "length = 1.5 m", "toml-syntax", "in quotes: \"1.5 m\""),
        (
            "title = \"Starter house\"\nfamily",
            "title = “Starter house”\nfamily",
            "toml-syntax",
            "\"Starter house\"",
        ),
        // A bracket that is left out.
        ("\"A-3\"], first", "\"A-3\", first", "toml-syntax", "a ] is missing"),
        // A head of a table that is not known: what it names is nowhere, which follows.
        ("[dwellings]", "[dwelings]", "unknown-key", "did you mean dwellings?"),
        // The same for the buildings: every place hangs on them.
        ("[buildings]", "[building]", "unknown-key", "did you mean buildings?"),
        ("floors = [\"G\", \"1\", \"2\"]", "floors = \"G\"", "wrong-type", "must be a list"),
        // What stands in quotes and should not, and the reverse.
        ("outdoors = true", "outdoors = \"yes\"", "wrong-type", "write true, without quotes"),
        (
            "escape_decided_on = 2026-03-02",
            "escape_decided_on = \"2026-13-02\"",
            "wrong-type",
            "there is no day 2026-13-02",
        ),
        (
            "[supplies]",
            "[policy]\nstandby_hours = \"4 h\"\n\n[supplies]",
            "wrong-type",
            "write 4, without quotes",
        ),
        ("length = \"1.5 m\"", "length = \"1.5 m", "toml-syntax", "close it on this line: \" is missing"),
        (
            "length = \"1.5 m\"",
            "length = \"1.5 m\", environment = \"underground\"",
            "unknown-word",
            "did you mean buried?",
        ),
        (
            ", spacing = \"6 m\"",
            "",
            "length-missing",
            "add spacing, the length from stop to stop, for the 2 sections",
        ),
        ("\"A-6:2\"", "\"A-6:4\"", "unknown-name", "did you mean A-6:2? A-6 has 2 stations"),
        ("A-5 = {", "A-5 = { station = \"PS\",", "unknown-name", "there is ostrel-"),
        (
            "door_station = \"ostrel-dv1\"",
            "door_station = \"ostrel-v4\"",
            "wrong-kind-of-part",
            "is an indoor station; a door station is needed",
        ),
        // From and to exchanged.
        (
            "from = \"D1.1\", to = [\"A-1\", \"A-2\", \"A-3\"]",
            "to = \"D1.1\", from = [\"A-1\", \"A-2\", \"A-3\"]",
            "run-ends-at-port",
            "exchanged? Write from = \"D1.1\" and to = [\"A-1\", \"A-2\", \"A-3\"]",
        ),
        ("from = \"PS\", to = \"D1\"", "from = [\"D1\"], to = \"PS\"", "run-ends-at-port", "exchanged?"),
        ("from = \"D1.3\"", "from = [\"D1.3\"]", "wrong-type", "without [ ]: \"D1.3\""),
        // An everyday name where the catalogue's is to stand.
        ("cable = \"flex-1.5\"", "cable = \"bell wire\"", "unknown-name", "did you mean pair-0.5?"),
        ("cable = \"flex-1.5\"", "cable = \"Klingeldraht\"", "unknown-name", "did you mean pair-0.5?"),
    ] {
        assert!(site.contains(from), "{from}");
        let mut site = site.replacen(from, to, 1);
        if to.starts_with("Flat 6 = ") {
            site = site.replace("\"A-6\"", "\"Flat 6\"").replace("\"A-6:2\"", "\"Flat 6:2\"");
        }
        let found = errors(&folder, &site);
        assert_eq!(found, [code], "{to}: {}", said(&folder));
        assert!(said(&folder).contains(help), "{to}: {}", said(&folder));
    }
}

/// A second mistake is still told beside the first.
#[test]
fn what_does_not_follow_is_told_too() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    let two = site
        .replace("A-2 = {", "A-1 = {")
        .replace("\"A-5\"", "\"Penthouse\"")
        .replace("\"front\", cable", "\"back\", cable");
    let found = errors(&folder, &two);
    assert_eq!(found.len(), 3, "{found:?}");
    assert_eq!(found.iter().filter(|code| *code == "unknown-name").count(), 2, "{found:?}");
}

/// A slip in one name is told beside another mistake that could explain it.
#[test]
fn a_slip_in_a_name_is_told_beside_other_mistakes() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml").replace("to = \"front\"", "to = \"frnt\"");
    for (from, to, code) in [
        ("[buildings]", "[building]", "unknown-key"),
        ("[dwellings]", "D1 = { place = \"A/G\" }\n\n[dwellings]", "duplicate-name"),
    ] {
        let found = errors(&folder, &site.replacen(from, to, 1));
        assert!(
            found.contains(&code.to_string()) && found.contains(&"unknown-name".to_string()),
            "{found:?}"
        );
        assert!(said(&folder).contains("did you mean front?"), "{}", said(&folder));
    }
    // A site without any building is told so once.
    let none = folder.read("site.toml").replace("[buildings]\nA = {", "[management]\n# {");
    assert_eq!(errors(&folder, &none), ["unknown-name"], "{}", said(&folder));
    // An empty file is told how to begin.
    assert_eq!(errors(&folder, ""), ["missing-key"]);
    let text = said(&folder);
    assert!(
        text.contains("[site]") && text.contains("family = \"...\"") && text.contains("latchline new"),
        "{text}"
    );
}

/// A slip in a range is one mistake: what it stands for is seen, so nothing is missing because of it.
#[test]
fn a_slip_in_a_range_gives_one_error() {
    let folder = Folder::with_starter();
    let site = |range: &str| {
        format!(
            "[site]\ntitle = \"Range\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
             [buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
             [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n[entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n\
             [dwellings]\n\"{range}\" = {{ place = \"A/G\", per_floor = 2 }}\n[runs]\nfeed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
             flats = {{ from = \"D1.1\", to = \"A-1..A-4\", first = \"5 m\", spacing = \"4 m\" }}\ndoor = {{ from = \"D1.2\", to = \"front\", length = \"9 m\" }}\n"
        )
    };
    folder.write("slip.toml", site("A-1..A-4"));
    assert!(folder.run(&["check", "slip.toml"]).status < 2);
    for slip in ["A-4..A-1", "A-1..B-4", "A-1...A-4", "A-1 - A-4", "A-1–A-4"] {
        let found = errors(&folder, &site(slip));
        assert!(found.len() == 1, "{slip}: {found:?} {}", said(&folder));
    }
    // Of two ranges that overlap both are named, and which dwellings they share.
    let overlapping = site("A-1..A-3").replace("[runs]", "\"A-2..A-4\" = { place = \"A/1\" }\n[runs]");
    assert_eq!(errors(&folder, &overlapping), ["bad-name"]);
    assert!(
        said(&folder).contains("\"A-2..A-3\" cannot be used: A-1..A-3 above has 2 of them too"),
        "{}",
        said(&folder)
    );
}

/// 30 ft are 9.144 m, 42 yd 38.4048 m and 60 in 1.524 m: exact factors of NIST Special Publication 811, appendix B (from memory).
#[test]
fn lengths_as_people_write_them() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    for (written, help) in [
        ("30 feet", "30 feet is 9.144 m (1 ft = 0.3048 m exactly, NIST SP 811)"),
        ("42 yards", "42 yards is 38.4048 m (1 yd = 0.9144 m exactly, NIST SP 811)"),
        ("60 inches", "60 inches is 1.524 m"),
        ("30'", "did you mean ft?"),
        ("30 meters", "did you mean m?"),
        ("30 metre", "did you mean m?"),
        ("30 mtr", "did you mean m?"),
        ("30 Meter", "did you mean m?"),
        ("1 500 mm", "write 1500 mm"),
        ("1\u{2009}500 mm", "write 1500 mm"),
        ("1\u{202f}500 mm", "write 1500 mm"),
        ("1'500 mm", "write 1500 mm"),
        ("12,5 m", "write 12.5 m"),
        ("1.500,5 m", "write 1500.5 m"),
        ("12-15 m", "one number and a unit"),
        ("2 x 15 m", "one number and a unit"),
    ] {
        let found = errors(&folder, &site.replace("first = \"8 m\"", &format!("first = \"{written}\"")));
        let said = said(&folder);
        assert!(found.len() == 1 && said.contains(help), "{written}: {said}");
        assert!(!said.contains("500 mm\" is not a unit"), "{said}");
    }
}

#[test]
fn what_was_made_from_a_site_is_recognised() {
    let folder = Folder::with_starter();
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack"]).status, 0);
    for (file, what) in [
        ("pack/workbook.xlsx", "it is the workbook of a pack"),
        ("pack", "is the folder of a pack"),
        ("pack/tables", "is the folder of a pack"),
        ("pack/phone.html", "it is the page for the phone"),
        ("pack/pack.pdf", "it is a PDF"),
    ] {
        for (command, instead) in [("check", "site.toml"), ("design", "survey")] {
            let ran = folder.run(&[command, file]);
            assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{command} {file}");
            assert!(ran.err.contains(what) && ran.err.contains(instead), "{command} {file}: {}", ran.err);
        }
    }
    let ran = folder.run(&["check", "pack/tables/01-summary.csv"]);
    assert!(ran.status == 2 && ran.err.contains("it is a table"), "{}", ran.err);
    let ran = folder.run(&["addresses", "site.toml", "--found", "pack/workbook.xlsx"]);
    assert!(ran.status == 2 && ran.err.contains("it is a workbook"), "{}", ran.err);
    // A survey is none of them.
    assert_eq!(folder.run(&["new", "--survey", "survey.xlsx"]).status, 0);
    let ran = folder.run(&["check", "survey.xlsx"]);
    assert!(ran.err.contains("if it is a survey, make a site of it with: latchline design"), "{}", ran.err);
}

/// No hint of the reader of the arguments, and no code of ours, reaches who typed a number or a name wrong.
#[test]
fn slips_on_the_command_line_are_answered_in_plain_words() {
    let folder = Folder::with_starter();
    for (typed, expected) in [
        (&["ask", "battery", "-3"][..], "a number here is not below zero"),
        (&["ask", "battery", "abc"], "is to be a whole number"),
        (&["ask", "battery", "3.5"], "is to be a whole number"),
        (&["ask", "battery", "0"], "not a number of stations from 1 to 200"),
        (&["ask", "battery", "12", "--hours", "-3"], "--hours cannot be -3"),
        (&["ask", "battery", "12", "--hours", "soon"], "is no number of hours"),
        (&["ask", "switches", "-3"], "a number here is not below zero"),
        (&["ask", "switches", "27", "--extension", "-2"], "--extension cannot be -2"),
        (&["ask", "switches", "1.2.3"], "more than one number"),
        (&["ask", "switches", "27B second station"], "27B:2 for its second"),
        (&["ask", "switches", "27B/2"], "27B:2 for its second"),
        (&["check", "site.toml", "--door"], "--door <NAME>: the value is missing"),
        (&["check", "site.toml", "--door", ""], "--door <NAME>: the value is missing"),
        (&["fix", "site.toml", "--job"], "--job <JOB>: the value is missing"),
        (&["accept", "site.toml", "nocode", "--reason", "known"], "there is no code \"nocode\" all codes"),
        (&["flow", "/dev/null"], "it is empty: a plain network file in JSON is asked for"),
        (&["reach", "--total", "60", "--cable", ""], "no cable is named: write for example --cable pair-0.8"),
        (&["locate", "site.toml", "A-1=47"], "\"47\" has no unit: write A-1=47V"),
        (&["explain", "wifi", "does", "not", "work"], "there is no code and no symptom"),
        (&["ask", "lock", "strike12", "--length", "10"], "did you mean strike-12"),
        (
            &["ask", "battery", "12", "--supply", "ostrel-v4"],
            "ostrel-v4 is an indoor station, and a supply is asked for",
        ),
        (
            &["ask", "battery", "12", "--station", "ostrel-ps-120"],
            "ostrel-ps-120 is a supply, and an indoor station is asked for",
        ),
        (&["reach", "--total", "200 ft"], "200 ft is 60.96 m; write 60.96"),
        (&["reach", "--total", "60", "--spacing", "3"], "cannot stand together"),
        (
            &["reach", "--total", "60", "--supply", "ostrel-d4"],
            "a distributor or branch box, and a supply is asked for",
        ),
        (&["addresses", "site.toml", "PS"], "PS has no address and no switches"),
        (&["addresses", "site.toml", "A-9"], "did you mean"),
        (&["fix", "site.toml", "--job", "J1"], "check finds nothing to mend"),
        (&["check", ""], "<SITE> is empty"),
        (&["check", "site.toml", "--format", "pdf"], "cannot be \"pdf\"; there is text"),
        (&["locate", "site.toml", "A-1=33X"], "neither a number with its unit"),
        (&["ask", "mix", "ostrel-v4"], "no model with a count"),
        (&["ask", "mix", "ostrel-v4=-3"], "no model with a count"),
        (&["ask", "lock", "strike-12"], "what is missing: --length"),
        (&["reach", "--total", "-5"], "is not a length"),
        (&["reach", "--spacing", "-3"], "--spacing cannot be -3"),
        (&["reach", "--station", "ostrel-dv1"], "ostrel-dv1"),
        (&["reach", "--total", "60", "--cable", "green string"], "which cable is"),
        (&["fix", "site.toml", "--job", "-3"], "--job cannot be -3"),
        (&["fix", "site.toml", "--job", "F3"], "F3 is a finding: write --finding F3"),
        (&["fix", "site.toml", "--finding", "J3"], "J3 is a job: write --job J3"),
        (&["fix", "site.toml", "--finding", "three"], "is no finding; they are F1, F2"),
        (&["headroom", "site.toml", "--most"], "there is no option --most here"),
        (
            &["check", "my", "site.toml"],
            "one too many: a figure stands behind its option, what has a space in it in quotes",
        ),
        (&["chek", "site.toml"], "did you mean check?"),
        (&["check"], "what is missing: <SITE>"),
    ] {
        let ran = folder.run(typed);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{typed:?}: {}", ran.err);
        let text = one_line(&ran);
        for hint in ["tip:", "-- -", "invalid digit", "panicked", "(wrong-kind", "[wrong-kind"] {
            assert!(!text.contains(hint), "{typed:?}: {text}");
        }
        assert!(text.contains(expected), "{typed:?}: {text}");
    }
}

/// Asked right, but of what there is not: answered as a question, in words.
#[test]
fn what_the_parts_do_not_have_is_said() {
    let folder = Folder::with_starter();
    let ran = folder.run(&["ask", "switches", "27:9", "--family", "ostrel-48"]);
    let text = one_line(&ran);
    assert!(ran.status == 1 && text.starts_with("Station 9 of a dwelling cannot be set"), "{text}");
    // A cable is shown by its everyday name.
    let (everyday, own) = (folder.run(&["catalogue", "bell wire"]), folder.run(&["catalogue", "pair-0.5"]));
    assert_eq!((everyday.status, &everyday.out), (0, &own.out));
    // The door station is the only station on its run: no other of the run answers.
    folder.write("found.txt", "indoor 0/1/1\nindoor 0/2/1\nfoo bar\n");
    let text = one_line(&folder.run(&["addresses", "site.toml", "--found", "found.txt"]));
    assert!(
        text.contains("front: the only station on run door.") && !text.contains("others of run door"),
        "{text}"
    );
    assert!(
        text.starts_with("1 line of the list could not be read (3)") && text.contains("Line 3: no number."),
        "{text}"
    );
    // What is taken out of a call list.
    folder.edit("site.toml", "role = \"main\"", "role = \"main\", calls = [\"A-1\", \"A-2\"]");
    let fewer = folder.read("site.toml").replace("calls = [\"A-1\", \"A-2\"]", "calls = [\"A-1\"]");
    folder.write("fewer.toml", fewer);
    let text = one_line(&folder.run(&["compare", "site.toml", "fewer.toml"]));
    assert!(text.contains("front, call list; take out A-2") && !text.contains(":;"), "{text}");
}

/// What callers say, and what to do first of all (common practice, no source).
#[test]
fn symptoms_in_callers_words_lead_to_the_right_page() {
    let folder = Folder::new();
    for (told, first, has) in [
        ("printer on fire", "Fire, smoke", "emergency number of your country"),
        ("there is smoke from the power supply", "Fire, smoke", "Cut the mains"),
        ("der Drucker brennt", "Fire, smoke", "emergency number"),
        ("water in the panel", "Water in", "Switch that supply off first"),
        ("the gate panel is wet after rain", "Water in", "insulation-too-low"),
        ("Wasser in der Türstation", "Water in", "insulation-too-low"),
        ("the monitor keeps rebooting", "A station restarts by itself", "voltage-too-low"),
        ("Monitor startet dauernd neu", "A station restarts by itself", "voltage-too-low"),
        ("41 of 42 found", "The system finds fewer", "addresses SITE --found"),
        ("station missing from the list", "The system finds fewer", "addresses SITE --found"),
        ("eine Station fehlt in der Liste", "The system finds fewer", "addresses SITE --found"),
        ("only 11 of 12 stations found", "The system finds fewer", "addresses SITE --found"),
    ] {
        let words: Vec<&str> = told.split(' ').collect();
        let ran = folder.run(&[&["explain"], &words[..]].concat());
        let text = one_line(&ran);
        assert!(ran.status == 0 && ran.out.starts_with(first) && text.contains(has), "{told}: {text}");
    }
}

/// Five mistakes in five tables, and a sixth that breaks a row, a head or the name of a table: all are told at once, and nothing that only
/// follows from the sixth.
#[test]
fn one_bad_row_hides_no_other_mistake() {
    let folder = Folder::with_starter();
    let mut site = folder.read("site.toml");
    for (from, to) in [
        ("length_tolerance = ", "length_tolerence = "),
        ("A-4 = { place = \"A/1\" }", "A-4 = { place = \"A/9\" }"),
        ("model = \"ostrel-d4\"", "model = \"ostrel-d4x\""),
        ("length = \"9 m\" }", "length = \"9\" }"),
        ("to = [\"A-1\", \"A-2\"", "to = [\"A-1\", \"A-22\""),
    ] {
        assert!(site.contains(from), "{from}");
        site = site.replacen(from, to, 1);
    }
    let mut five = errors(&folder, &site);
    five.sort();
    assert_eq!(five, ["unit-missing", "unknown-key", "unknown-name", "unknown-name", "unknown-name"]);
    for (from, to, sixth) in [
        // What is left open: a text, a brace, a list, a head, a long text.
        ("hottest_temperature = \"40 °C\"", "hottest_temperature = \"40 °C", "toml-syntax"),
        ("A-2 = { place = \"A/G\" }", "A-2 = { place = \"A/G\" ", "toml-syntax"),
        (
            "PS = { model = \"ostrel-ps-120\", place = \"A/G\" }",
            "PS = { model = \"ostrel-ps-120\", place = \"A/G\"",
            "toml-syntax",
        ),
        ("floors = [\"G\", \"1\", \"2\"]", "floors = [\"G\", \"1\", \"2\"", "toml-syntax"),
        ("[runs]", "[runs", "toml-syntax"),
        ("[dwellings]", "dwellings]", "toml-syntax"),
        ("title = \"Starter house\"\n", "title = \"\"\"Starter house\"\n", "toml-syntax"),
        // What is left out or is another sign.
        ("A-3 = {", "A-3 : {", "toml-syntax"),
        ("A-3 = {", "A-3 {", "toml-syntax"),
        ("hottest_temperature = \"40 °C\"", "hottest_temperature =", "toml-syntax"),
        ("from = \"PS\", to", "from = \"PS\" to", "toml-syntax"),
        ("\"14 m\", \"6 m\"", "\"14 m\" \"6 m\"", "toml-syntax"),
        ("indoor_station = ", "indoor station = ", "toml-syntax"),
        // A head that is nearly right, and a row that is no table.
        ("[dwellings]", "[dwelings]", "unknown-key"),
        ("[runs]", "[run]", "unknown-key"),
        ("A-1 = { place = \"A/G\" }", "A-1 = \"A/G\"", "wrong-type"),
    ] {
        assert!(site.contains(from), "{from}");
        let mut six = errors(&folder, &site.replacen(from, to, 1));
        let at = six.iter().position(|code| code == sixth);
        six.remove(at.unwrap_or_else(|| panic!("{to}: {six:?}")));
        six.sort();
        assert_eq!(six, five, "{to}: {}", said(&folder));
        // In words of whoever wrote the file, in both languages.
        if sixth == "toml-syntax" {
            let german = one_line(&folder.run(&["check", "slip.toml", "--language", "de"]));
            assert!(!german.contains("englisch") && !said(&folder).contains("expected `"), "{to}: {german}");
        }
    }
}

/// What a message names is a key of the file or a thing on site, not a word of the program.
#[test]
fn messages_name_keys_and_things() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    for (from, to, told) in [
        (
            "role = \"main\",",
            "role = \"main\", calls = [\"A/7\"],",
            "dwelling, floor or building (key calls) named \"A/7\"",
        ),
        (
            "[supplies]\nPS = {",
            "[supplies]\n# PS = {",
            "supply, port or station (key from of a run) named \"PS\"",
        ),
        (
            "floors = [\"G\", \"1\", \"2\"]",
            "floors = []",
            "write it under floors of the building, in [buildings]",
        ),
        ("A-3 = { place = \"A/1\" }", "A-3 = { place = 1 }", "must be text in quotes, not a whole number"),
        ("A-3 = {", "\"\" = {", "cannot be used: it is empty"),
    ] {
        assert!(site.contains(from), "{from}");
        errors(&folder, &site.replacen(from, to, 1));
        let said = said(&folder);
        assert!(said.contains(told), "{told}: {said}");
        assert!(!said.contains("scope"), "{said}");
    }
}

/// Whether people escape through a door may be not known: it is said so, and the door is not judged as a way out. That it is none, with nobody
/// named, is said on the sheet of the pack.
#[test]
fn a_way_out_may_be_not_known() {
    let folder = Folder::with_starter();
    let decided =
        "escape_route = true, escape_decided_by = \"fire risk assessor\", escape_decided_on = 2026-03-02";
    let site = folder.read("site.toml");
    assert!(site.contains(decided));
    let json = |text: String| -> Value {
        folder.write("site.toml", text);
        let ran = folder.run(&["check", "site.toml", "--format", "json"]);
        serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}{}", ran.out, ran.err))
    };
    let open = json(site.replacen(decided, "escape_route = \"not known\"", 1));
    let left_out = json(site.replacen(&format!("{decided}, "), "", 1));
    assert_eq!(open["verdict"], "not-judged", "{open}");
    assert_eq!(open["not_judged"], left_out["not_judged"]);
    let none = json(site.replacen(decided, "escape_route = false", 1));
    let found = none["findings"].as_array().unwrap();
    let found = found.iter().find(|one| one["code"] == "escape-decision-missing");
    assert_eq!(found.unwrap_or_else(|| panic!("{none}"))["severity"], "advice");
    assert_eq!(folder.run(&["pack", "site.toml", "-o", "pack", "--only", "doors"]).status, 0);
    let names = std::fs::read_dir(folder.path("pack/tables")).unwrap();
    let tables = names.map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap()).collect::<String>();
    assert!(tables.contains("not stated who decided it and when"), "{tables}");
    // Another word is a slip.
    let slip = site.replacen(decided, "escape_route = \"perhaps\"", 1);
    assert_eq!(errors(&folder, &slip), ["wrong-type"]);
    assert!(said(&folder).contains("true, false or \"not known\""), "{}", said(&folder));
}

/// A wrong name in one run, a dwelling that no run names, one that two runs name, and a run with a wrong start: all are told at once, and what
/// hangs on one of them is not told as a mistake of its own.
#[test]
fn all_mistakes_of_the_wiring_are_told_in_one_round() {
    let folder = Folder::new();
    let site = |runs: &str| {
        format!(
            "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
             [buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
             [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n[entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n\
             [dwellings]\nA-1 = {{ place = \"A/1\" }}\nA-2 = {{ place = \"A/1\" }}\nA-3 = {{ place = \"A/1\" }}\nA-34 = {{ place = \"A/1\" }}\n\
             loft = {{ place = \"A/1\" }}\n[runs]\nfeed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n{runs}"
        )
    };
    // A-1 is meant by hangs on the run with the wrong start, A-34 is named twice, and nothing names the loft.
    folder.write(
        "site.toml",
        site(
            "one = { from = \"D1.1\", to = [\"A-11\", \"A-3\", \"A-34\"], first = \"9 m\", spacing = \"3 m\" }\n\
             two = { from = \"D7.2\", to = [\"A-2\", \"A-34\"], first = \"9 m\", spacing = \"3 m\" }\n\
             door = { from = \"D1.4\", to = \"front\", length = \"8 m\" }\n",
        ),
    );
    let page = folder.run(&["check", "site.toml"]).out;
    let told = |code: &str| page.matches(&format!("error[{code}]")).count();
    assert_eq!(told("not-wired"), 1, "{page}");
    assert!(page.contains("no run reaches the indoor station loft"), "{page}");
    assert_eq!(told("fed-twice"), 1, "{page}");
    assert!(page.contains("A-34 is reached twice"), "{page}");
    assert_eq!(told("unknown-name"), 2, "{page}");
    // A name like none of those left may be that of any: then nothing is said to be unreached.
    folder.write(
        "site.toml",
        site(
            "one = { from = \"D1.1\", to = [\"A-1\", \"A-2\", \"kitchen\", \"A-34\"], first = \"9 m\", spacing = \"3 m\" }\n\
             door = { from = \"D1.4\", to = \"front\", length = \"8 m\" }\n",
        ),
    );
    let page = folder.run(&["check", "site.toml"]).out;
    assert!(page.contains("error[unknown-name]") && !page.contains("error[not-wired]"), "{page}");
}

/// A size as it is said on site. The unit tells a wire's diameter from a cross-section: 0.5 mm is 0.196 mm² (π/4 · 0.5²), less than half of 0.5 mm².
#[test]
fn a_cable_is_known_by_its_size_as_people_write_it() {
    let folder = Folder::new();
    for (asked, cable) in [
        ("0.5mm", "pair-0.5"),
        ("0,5", "pair-0.5"),
        ("0.8 mm", "pair-0.8"),
        ("1mm2", "flex-1.0"),
        ("1 mm²", "flex-1.0"),
        ("1,5mm²", "flex-1.5"),
        ("1.5 qmm", "flex-1.5"),
        ("Cat5e", "cat-5e"),
        ("cat 5", "cat-5e"),
    ] {
        let ran = folder.run(&["reach", "--total", "60", "--cable", asked, "--language", "de"]);
        assert!(ran.out.contains(cable), "{asked}: {}{}", ran.out, ran.err);
    }
    for asked in ["0.5mm2", "0,5 mm²", "1.5mm"] {
        let ran = folder.run(&["reach", "--total", "60", "--cable", asked]);
        assert_eq!(ran.status, 2, "{asked}: {}", ran.out);
        assert!(ran.err.contains(&format!("which cable is \"{asked}\"?")), "{}", ran.err);
    }
}

/// Fifty million ohms are said as people say them, and where there was no operating point no dash stands for a figure.
#[test]
fn compared_figures_are_those_that_people_say() {
    let folder = Folder::new();
    let site = |more: &str, length: &str| {
        format!(
            "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.5\"\n\
             [buildings]\nA = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
             [distributors]\nD = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n\
             [entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n[dwellings]\n\"A-1..A-8\" = {{ place = \"A/G\" }}\n[runs]\n\
             feed = {{ from = \"PS\", to = \"D\", length = \"2 m\", cable = \"flex-1.5\" }}\n\
             R = {{ from = \"D.1\", to = [\"A-1..A-8\"], spacing = \"{length}\"{more} }}\ndoor = {{ from = \"D.2\", to = \"front\", length = \"8 m\" }}\n"
        )
    };
    folder.write("old.toml", site(", existing = true", "300 m"));
    folder.write("new.toml", site(", existing = true, measured = { insulation = \"50 Mohm\" }", "5 m"));
    let out = folder.run(&["compare", "old.toml", "new.toml"]).out;
    let joined = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(joined.contains("50 Mohm") && !joined.contains("50000000"), "{joined}");
    assert!(joined.contains("V, was dark: the voltage collapsed"), "{joined}");
    assert!(!joined.contains("was –") && !joined.contains("– V"), "{joined}");
}

/// A name without a number, or with more behind it, is asked for where names are known: on the site.
#[test]
fn switches_of_a_name_are_asked_of_the_site() {
    let folder = Folder::new();
    for name in ["12bis", "Shop", "12-3"] {
        let ran = folder.run(&["ask", "switches", name]);
        assert_eq!(ran.status, 2);
        assert!(ran.err.contains(&format!("latchline addresses SITE {name}")), "{}", ran.err);
    }
    let ran = folder.run(&["ask", "switches", "the shop", "--language", "de"]);
    assert!(ran.err.contains("latchline addresses SITE \"the shop\""), "{}", ran.err);
}

/// A floor that a range of eight dwellings gives is wrong once, as it is written once.
#[test]
fn what_a_range_gives_is_told_once() {
    let folder = Folder::with_starter();
    let site = folder.read("site.toml");
    let head = site.split("[dwellings]").next().unwrap();
    folder.write("range.toml", format!("{head}[dwellings]\n\"X-1..X-8\" = {{ place = \"Nowhere/9\" }}\n"));
    let said = folder.run(&["check", "range.toml", "--lines"]);
    let all = format!("{}{}", said.out, said.err);
    assert_eq!(all.matches("there is no building named \"Nowhere\"").count(), 1, "{all}");
}
