//! Every command that speaks German, read as a German reads it: nothing English is left, and a snapshot of each.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::{Folder, Ran};
use latchline_site::builtin_catalogue;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The commonest function words of English that are no words of German, nor of the names and keys here.
const ENGLISH: &[&str] = &[
    "the", "of", "and", "is", "are", "not", "from", "with", "needs", "has", "have", "by", "one", "each",
    "its", "than", "every", "which", "that", "this", "to", "for", "without", "there", "more", "while", "no",
    "needed", "found", "worst", "wrote", "written", "nothing", "cannot", "must", "should",
];

/// A demo folder.
fn demo() -> Folder {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "."]).status, 0);
    folder
}

/// What a command says in German: what it writes to both, standard output first.
fn german(folder: &Folder, arguments: &[&str]) -> String {
    let mut all = arguments.to_vec();
    all.extend(["--language", "de"]);
    let Ran { status, out, err } = folder.run(&all);
    format!("$ latchline {}\n{out}{err}[{status}]\n", all.join(" "))
}

/// Texts that are not ours: what stands in quotes in these files, longest first.
fn quoted(files: &[&str]) -> Vec<String> {
    let mut texts: BTreeSet<String> = BTreeSet::new();
    for file in files {
        texts.extend(file.split('"').skip(1).step_by(2).map(one_line).filter(|text| text.contains(' ')));
    }
    let mut texts: Vec<String> = texts.into_iter().collect();
    texts.sort_by_key(|text| std::cmp::Reverse(text.len()));
    texts
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Nothing English is left but names, keys and the user's own texts; lines of files and commands are theirs.
fn no_english(said: &str, files: &[&str]) {
    let is_ours = |line: &&str| {
        let file_line = line.trim_start().split_once(' ').is_some_and(|(number, rest)| {
            number.parse::<usize>().is_ok() && rest.trim_start().starts_with(['|', '+', '-'])
        });
        !file_line && !line.starts_with("$ ")
    };
    let mut text = one_line(&said.lines().filter(is_ours).collect::<Vec<_>>().join("\n"));
    for name in quoted(files) {
        text = text.replace(&name, "");
    }
    // Keys, commands in backquotes and values that files hold in quotes stay as they are written.
    text = text.replace(", to,", ",").replace(", found,", ",");
    for key in ["from", "to"] {
        text = text.replace(&format!("{key} ="), "");
    }
    let text: String = text.split('`').step_by(2).collect::<Vec<_>>().join(" ");
    let text: String = text.split('"').step_by(2).collect::<Vec<_>>().join(" ");
    let left: BTreeSet<&str> = text
        .split(|sign: char| !sign.is_alphanumeric() && !"-_.:/[]".contains(sign))
        .map(|word| word.trim_matches(['.', ':']))
        .filter(|word| ENGLISH.contains(word))
        .collect();
    assert!(left.is_empty(), "{left:?} in:\n{said}");
}

/// Runs a command, looks for English, and keeps what it says.
fn read(name: &str, folder: &Folder, arguments: &[&str], files: &[&str]) {
    let said = german(folder, arguments);
    no_english(&said, files);
    insta::assert_snapshot!(name, said);
}

#[test]
fn checks_and_sheets_are_german() {
    let folder = demo();
    let (site, faulty, catalogue) =
        (folder.read("site.toml"), folder.read("faulty.toml"), builtin_catalogue().1);
    let files = [site.as_str(), faulty.as_str(), catalogue];
    read("check", &folder, &["check", "site.toml"], &files);
    read("check_faulty", &folder, &["check", "faulty.toml"], &files);
    read("check_faulty_lines", &folder, &["check", "faulty.toml", "--lines"], &files);
    read("check_short", &folder, &["check", "faulty.toml", "--format", "short"], &files);
    read("check_samples", &folder, &["check", "site.toml", "--samples", "200"], &files);
    for door in ["front-A", "gate", "bins"] {
        read(&format!("door_{door}"), &folder, &["check", "site.toml", "--door", door], &files);
        no_english(&german(&folder, &["check", "faulty.toml", "--door", door]), &files);
    }
    for supply in ["A-PS", "B-PS"] {
        read(&format!("supply_{supply}"), &folder, &["check", "site.toml", "--supply", supply], &files);
        no_english(&german(&folder, &["check", "faulty.toml", "--supply", supply]), &files);
    }
}

#[test]
fn files_and_stores_are_german() {
    let folder = Folder::new();
    read("new", &folder, &["new", "site.toml"], &[]);
    read("new_again", &folder, &["new", "site.toml"], &[]);
    read("new_survey", &folder, &["new", "--survey", "survey.xlsx"], &[]);
    read("no_store", &folder, &["store", "list", "."], &[]);
    folder.write("noise.db", "no store at all, but a text that is long enough to be looked at");
    read("no_such_store", &folder, &["store", "check", "noise.db"], &[]);
}

#[test]
fn the_german_starter_is_the_english_one_but_for_its_comments() {
    let folder = Folder::new();
    for (file, language) in [("en.toml", "en"), ("de.toml", "de")] {
        assert_eq!(folder.run(&["new", file, "--language", language]).status, 0);
        assert_eq!(folder.run(&["check", file]).status, 0);
    }
    let english = folder.read("en.toml");
    let german = folder
        .read("de.toml")
        .replace("Musterhaus", "Starter house")
        .replace("Sachverständige für Brandschutz", "fire risk assessor");
    let rows = |text: &str| -> Vec<String> {
        let row = |line: &str| line.split('#').next().unwrap_or_default().trim_end().to_string();
        text.lines().map(row).filter(|row| !row.is_empty()).collect()
    };
    assert_eq!(rows(&english), rows(&german));
    let comments = |text: &str| text.matches('#').count();
    assert_eq!(comments(&english), comments(&german), "as many comments in either language");
}

#[test]
fn changes_are_german() {
    let folder = demo();
    let (site, faulty, catalogue) =
        (folder.read("site.toml"), folder.read("faulty.toml"), builtin_catalogue().1);
    let files = [site.as_str(), faulty.as_str(), catalogue];
    read("fix_list", &folder, &["fix", "faulty.toml"], &files);
    read("fix_one", &folder, &["fix", "faulty.toml", "--finding", "1"], &files);
    read("fix_job", &folder, &["fix", "faulty.toml", "--job", "2"], &files);
    read("fix_all", &folder, &["fix", "faulty.toml", "--all", "--write"], &files);
    let reason = ["--reason", "bekannt", "--date", "2026-11-02"];
    let accept = ["accept", "site.toml", "bus-voltage-wet"];
    read("accept", &folder, &[&accept[..], &reason[..]].concat(), &files);
    read("freeze", &folder, &["addresses", "site.toml", "--freeze"], &files);
    read("frozen", &folder, &["addresses", "site.toml", "--freeze"], &files);
}

#[test]
fn tables_are_german() {
    let folder = demo();
    let (site, catalogue) = (folder.read("site.toml"), builtin_catalogue().1);
    let files = [site.as_str(), catalogue];
    read("addresses", &folder, &["addresses", "site.toml"], &files);
    folder.write("found.txt", "indoor 0/1/0\nindoor 0/1/0\nindoor 3/99/4\ndoor 0\nhello\n");
    read("addresses_found", &folder, &["addresses", "site.toml", "--found", "found.txt"], &files);
    read("one_device", &folder, &["addresses", "site.toml", "A-45:2", "gate"], &files);
    read("headroom", &folder, &["headroom", "site.toml"], &files);
    read("reach_total", &folder, &["reach", "--total", "60", "--cable", "bell wire"], &files);
    read("ask_lock", &folder, &["ask", "lock", "strike-12", "--length", "35"], &files);
    read("ask_battery", &folder, &["ask", "battery", "24", "--hours", "8"], &files);
    read("ask_mix", &folder, &["ask", "mix", "ostrel-v4=12", "ostrel-v7=6"], &files);
    read("ask_switches", &folder, &["ask", "switches", "27"], &files);
    read("compare", &folder, &["compare", "faulty.toml", "site.toml"], &files);
    read("explain_symptom", &folder, &["explain", "kein", "Bild"], &files);
    read("reach", &folder, &["reach", "ostrel-48", "--spacing", "5,12.5"], &files);
    read("reach_cable", &folder, &["reach", "ostrel-48", "--cable", "pair-0.8", "--feeder", "5,30"], &files);
    read("catalogue", &folder, &["catalogue"], &files);
    read("pack", &folder, &["pack", "site.toml", "-o", "pack"], &files);
}

/// What a drawing says: the texts of an SVG, one a line.
fn lettering(svg: &str) -> String {
    let mut lines = String::new();
    for element in ["<title", "<desc", "<text"] {
        let end = element.replace('<', "</");
        for part in svg.split(element).skip(1) {
            let inside = part.split_once('>').map_or("", |(_, inside)| inside);
            let inside = inside.split(&end).next().unwrap_or_default();
            let bare: String =
                inside.split('<').map(|text| text.split_once('>').map_or(text, |(_, text)| text)).collect();
            lines.push_str(&format!("{}\n", one_line(&bare)));
        }
    }
    lines
}

#[test]
fn drawings_are_german() {
    let folder = demo();
    let (site, catalogue) = (folder.read("site.toml"), builtin_catalogue().1);
    let files = [site.as_str(), catalogue];
    read(
        "draw",
        &folder,
        &["draw", "site.toml", "-o", "drawings", "--what", "profiles", "--what", "signal"],
        &files,
    );
    for name in std::fs::read_dir(folder.path("drawings")).expect("a folder") {
        let svg = std::fs::read_to_string(name.expect("a drawing").path()).expect("a text");
        no_english(&lettering(&svg), &files);
    }
    let reach = &["reach", "ostrel-48", "--spacing", "5,12.5", "--chart", "chart.svg", "--language", "de"];
    assert_eq!(folder.run(reach).status, 0);
    let said = lettering(&folder.read("chart.svg"));
    assert!(said.lines().count() > 20, "{said}");
    no_english(&said, &files);
    insta::assert_snapshot!("reach_chart", said);
}

/// What was read on a phone and comes back, and what of it corrects the site file.
#[test]
fn readings_are_german() {
    let folder = demo();
    let (site, catalogue) = (folder.read("site.toml"), builtin_catalogue().1);
    let files = [site.as_str(), catalogue];
    read("phone", &folder, &["phone", "site.toml", "-o", "house.html"], &files);
    let page = folder.read("house.html");
    let data =
        page.split("id=\"plan\">").nth(1).and_then(|rest| rest.split("</script>").next()).expect("a plan");
    let plan: Value = serde_json::from_str(data).expect("JSON");
    let stages = plan["stages"].as_array().expect("stages");
    let steps = stages.iter().flat_map(|stage| stage["steps"].as_array().expect("steps"));
    let measured: Vec<&Value> = steps.filter(|step| step["nominal"].is_number()).collect();
    // The first three as predicted, three further far above, the last of them a capacitance.
    let capacitance = measured.iter().position(|step| step["unit"] == "nF").expect("a capacitance");
    let events: Vec<Value> = (0..6)
        .map(|number| {
            let step = measured[if number == 5 { capacitance } else { number * 7 }];
            let factor = if number < 3 { 1.0 } else { 3.0 };
            json!({
                "id": format!("01890a5d-ac96-774b-bcce-{number:012x}"), "device": "01890a5d-ac96-774b-bcce-b302099a8057",
                "sequence": number, "plan": plan["plan"], "revision": plan["revision"], "at": 1.7e12, "by": "Kim",
                "kind": "reading", "step": step["key"], "place": step["place"],
                "value": step["nominal"].as_f64().map(|nominal| nominal * factor), "unit": step["unit"], "text": "",
            })
        })
        .collect();
    let file = json!({"format": "latchline-readings", "version": 1, "site": plan["site"], "events": events});
    folder.write("back.json", file.to_string());
    read("readings", &folder, &["readings", "site.toml", "back.json"], &files);
    read("as_built", &folder, &["as-built", "site.toml", "back.json"], &files);
}

#[test]
fn locating_is_german() {
    let folder = demo();
    let (site, catalogue) = (folder.read("site.toml"), builtin_catalogue().1);
    let files = [site.as_str(), catalogue];
    read("locate", &folder, &["locate", "site.toml", "readings.toml"], &files);
    folder.write("bad.toml", "sites = 3\n[[reading]]\nat = \"A-12\"\nvalue = 3\nplace = \"x\"\n");
    folder.write("bad.csv", "at,value,a\nA-12,33 V,1\n");
    folder.write("open.toml", "[[reading\nat = \"A-12\"\n");
    read(
        "locate_bad",
        &folder,
        &["locate", "site.toml", "bad.toml", "bad.csv", "open.toml", "A-12=900V", "A-R1=-3ohm"],
        &files,
    );
}

#[test]
fn designs_are_german() {
    let folder = demo();
    let catalogue = builtin_catalogue().1;
    read("design", &folder, &["design", "survey.xlsx", "-o", "new.toml"], &[catalogue]);
    read("design_from", &folder, &["design", "survey.xlsx", "--from", "site.toml"], &[catalogue]);
    std::fs::create_dir(folder.path("survey")).expect("a folder");
    folder.write("survey/places.csv", "Place,Mains,Boxes\nhall,yes,yes\nlanding,no,yes\n");
    folder.write("survey/routes.csv", "From,To,Length\nhall,landing,3.5\n");
    folder.write("survey/dwellings.csv", "Dwelling,Place,Drop\nA1,hall,2\nA2,landing,2\n");
    folder.write("survey/entrances.csv", "Entrance,Place,Drop,Role\nfront,hall,4,main\n");
    read("design_compare", &folder, &["design", "survey", "--compare"], &[catalogue]);
    folder.write("survey/routes.csv", "From,To,Length\nhall,landing,1900\n");
    read("design_none", &folder, &["design", "survey", "-o", "none.toml"], &[catalogue]);
    folder.write("survey/dwellings.csv", "Dwelling,Place,Drop,Extensions\nA1,hal,2,40\nA2,landing,lots,1\n");
    read("survey_broken", &folder, &["design", "survey"], &[catalogue]);
}

/// What cannot be done is refused in German, with the status that it has in English.
#[test]
fn refusals_are_german() {
    let folder = demo();
    let (site, catalogue) = (folder.read("site.toml"), builtin_catalogue().1);
    let files = [site.as_str(), catalogue];
    folder.write("empty.txt", "\n");
    folder.write("rates.toml", "[groups\n");
    #[cfg(unix)]
    for (to, name) in [("circle.toml", "circle.toml"), ("nowhere.toml", "dangling.toml")] {
        std::os::unix::fs::symlink(to, folder.path(name)).expect("a link");
    }
    folder.write("page.html", "<!doctype html><html></html>");
    folder.write("utf16.toml", "\u{fffe}");
    std::fs::write(folder.path("latin.toml"), b"title = \"T\xfcr\"\n").expect("written");
    std::fs::create_dir(folder.path("folder")).expect("a folder");
    folder.write("folder/notes.txt", "mine\n");
    folder.write("named.toml", "catalogues = [\"none.toml\"]\n[site]\ntitle = \"x\"\n");
    let commands: &[&[&str]] = &[
        // Files.
        &["check", "nirgends.toml"],
        &["design", "nirgends.xlsx"],
        &["headroom", "nirgends"],
        &["check", "folder"],
        &["check", "survey.xlsx"],
        &["check", "readings.toml"],
        &["check", "page.html"],
        &["check", "latin.toml"],
        &["design", "site.toml"],
        &["design", "folder"],
        &["catalogue", "--catalogue", "nirgends.toml"],
        &["addresses", "site.toml", "--found", "empty.txt"],
        &["addresses", "-", "--freeze"],
        &["check", "-", "--watch"],
        // Results.
        &["design", "survey.xlsx", "-o", "site.toml"],
        &["design", "survey.xlsx", "-o", "survey.xlsx", "--force"],
        &["check", "site.toml", "--output", "readings.toml"],
        &["pack", "site.toml", "-o", "folder"],
        &["pack", "site.toml", "-o", "."],
        &["pack", "site.toml", "-o", "site.toml"],
        &["draw", "site.toml", "-o", "a.png"],
        &["draw", "site.toml", "-o", "a.svg", "--sheet", "x"],
        &["locate", "site.toml", "A-12=33V", "--rates", "rates.toml"],
        #[cfg(target_os = "linux")]
        &["check", "circle.toml"],
        #[cfg(unix)]
        &["check", "dangling.toml"],
        &["reach", "--chart", "chart.png"],
        // Names.
        &["check", "site.toml", "--door", "hof"],
        &["check", "site.toml", "--supply", "PS"],
        &["check", "site.toml", "--door", "gate", "--format", "sarif"],
        &["addresses", "site.toml", "A-46"],
        &["addresses", "site.toml", "A-PS"],
        &["explain", "voltage-to-low"],
        &["explain", "xyzzy"],
        &["catalogue", "ostrel-v8"],
        &["catalogue", "nichts-davon"],
        &["reach", "--supply", "strike-12"],
        &["reach", "nichts-davon"],
        &["reach", "--station", "ostrel-v4x"],
        &["ask", "lock", "strike-13", "--length", "35"],
        &["ask", "lock", "strike-12", "--length", "35", "--cable", "kuchen"],
        &["ask", "lock", "strike-12", "--length", "35", "--cable", ""],
        &["fix", "site.toml", "--finding", "99"],
        &["fix", "site.toml", "--finding", "J1"],
        &["fix", "site.toml", "--job", "99"],
        &["fix", "faulty.toml", "--job", "99"],
        &["fix", "faulty.toml", "--finding", "F1", "--remedy", "99"],
        &["fix", "site.toml", "--job", "F1"],
        &["fix", "site.toml", "--job", "nichts"],
        &["accept", "site.toml", "voltage-too-low", "--reason", "bekannt"],
        &["accept", "site.toml", "bus-voltage-wet", "--reason", " "],
        &["accept", "site.toml", "bus-voltage-wet", "--reason", "bekannt", "--date", "gestern"],
        &["design", "survey.xlsx", "--family", "nichts-davon"],
        &["practise", "site.toml", "--answer", "was"],
        &["practise", "site.toml", "--answer", "was:A-12"],
        // Values of options.
        &["ask", "battery", "500"],
        &["ask", "battery", "12", "--hours", "viele"],
        &["ask", "battery", "12", "--hours", "5000"],
        &["ask", "lock", "strike-12", "--length", "70 ft"],
        &["ask", "lock", "strike-12", "--length", "weit"],
        &["ask", "mix", "ostrel-v4"],
        &["ask", "mix", "ostrel-v4=0"],
        &["ask", "switches", "Laden"],
        &["ask", "switches", "12-3"],
        &["ask", "switches", "27:2", "--extension", "3"],
        &["reach", "--total", "50-60 m"],
        &["reach", "--total", "9000"],
        &["reach", "--spacing", "6,5"],
        &["check", "site.toml", "--samples", "0"],
        &["pack", "site.toml", "-o", "pack", "--base-url", "tür"],
        &["pack", "site.toml", "-o", "pack", "--revision", ""],
        // What the reader of the arguments does not understand.
        &["check"],
        &["check", "site.toml", "--suply", "A-PS"],
        &["check", "my", "site.toml"],
        &["check", "site.toml", "--format", "pdf"],
        &["fix", "site.toml", "--job", "J1", "--finding", "F1"],
        &["ask", "battery", "-3"],
        &["headroom", "site.toml", "--more", "100"],
    ];
    let mut all = String::new();
    for command in commands {
        let said = german(&folder, command);
        assert!(said.trim_end().ends_with("[2]"), "{said}");
        assert!(said.contains("\nFehler: "), "{said}");
        // How a command is used stands behind its mistake in the words of the command line.
        let prose: Vec<&str> = said.lines().filter(|line| !line.starts_with("  Usage: ")).collect();
        no_english(&prose.join("\n"), &files);
        assert_eq!(folder.run(command).status, 2, "{command:?}");
        all.push_str(&said);
    }
    insta::assert_snapshot!("refusals", all);
}

/// Every kind of mistake that a reader meets, in one file.
#[test]
fn mistakes_in_files_are_told_in_german() {
    let folder = Folder::new();
    let broken = r#"
[site]
title = 5
family = "ostrel-49"
cables = "pair-0.8"
[buildings]
A = { floors = ["G", "1"], title = "Haus", floor_height = "about 3 m" }
" " = { floors = ["G"] }
[supplies]
PS = { model = "ostrel-d4", place = "B/G" }
[distributors]
D = { model = "ostrel-ps-120", place = "A/9" }
[entrances]
front = { role = "man", place = "A/G", outdoors = "yes", control_height = "1,2 m" }
[dwellings]
A-1 = { place = "A/1", station = "strike-12" }
A-1b = { extensions = 3 }
[runs]
feed = { from = "PS", to = "D", cable = "pair", length = "3 kg" }
flats = { from = "D.99", to = ["A-1", "A-7"], length = "900 km", pairs = 77 }
"#;
    folder.write("broken.toml", broken);
    let files = [broken, builtin_catalogue().1];
    read("broken", &folder, &["check", "broken.toml"], &files);
    folder.write("syntax.toml", "[site\ntitle = \"x\"\n");
    let said = german(&folder, &["check", "syntax.toml"]);
    assert!(
        said.contains("der Kopf einer Tabelle ist nicht geschlossen") && !said.contains("englisch"),
        "{said}"
    );
    for command in [&["fix", "broken.toml"][..], &["headroom", "broken.toml"], &["addresses", "broken.toml"]]
    {
        no_english(&german(&folder, command), &files);
    }
    folder.write(
        "own.toml",
        "[cables]\nthin = { title = \"Thin\", gauge = \"0.3\" }\nthick = { gauge = \"2 mm²\", prise = 3 }\n",
    );
    read("broken_catalogue", &folder, &["catalogue", "--catalogue", "own.toml"], &files);
}

/// Thirteen flats on one chain of pair-0.5 that is too thin for them: a second distributor takes a part of it. Both languages name it, what it costs
/// and the two dwellings at the cut, with the same figures.
#[test]
fn a_second_distributor_is_named_in_both_languages() {
    let dwellings: String = (1..=13).map(|number| format!("A-{number} = {{ place = \"A/1\" }}\n")).collect();
    let names: Vec<String> = (1..=13).map(|number| format!("\"A-{number}\"")).collect();
    let folder = Folder::new();
    folder.write(
        "site.toml",
        format!(
            "[site]\ntitle = \"One run\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
             [buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
             [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n[entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n\
             [dwellings]\n{dwellings}[runs]\nfeed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1 m\" }}\n\
             flats = {{ from = \"D1.1\", to = [{}], cable = \"pair-0.5\", first = \"60 m\", spacing = \"9 m\" }}\n\
             door = {{ from = \"D1.4\", to = \"front\", length = \"8 m\" }}\n",
            names.join(", ")
        ),
    );
    let said = |language: &str| {
        let out = folder.run(&["check", "site.toml", "--language", language]).out;
        out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let figures = |text: &str, from: &str| -> Vec<String> {
        let line = text.split(from).nth(1).unwrap_or_else(|| panic!("{from}: {text}"));
        let line = line.split("(A-").next().unwrap().replace(',', ".");
        line.split_whitespace()
            .filter_map(|word| word.parse::<f64>().ok())
            .map(|one| one.to_string())
            .collect()
    };
    let (english, german) = (said("en"), said("de"));
    let figures = (figures(&english, "another distributor: "), figures(&german, "anderer Verteiler: "));
    assert_eq!(figures.0, figures.1, "{english}\n{german}");
    assert_eq!(figures.0.len(), 3, "money, minutes, dwellings: {english}");
    assert!(english.contains("(A-5, A-6)") && german.contains("(A-5, A-6)"), "{german}");
}
