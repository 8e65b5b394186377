//! The other commands as whole programs.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::{Folder, ran};

const COMMANDS: [&str; 21] = [
    "new",
    "check",
    "addresses",
    "accept",
    "fix",
    "draw",
    "design",
    "catalogue",
    "explain",
    "serve",
    "schema",
    "completions",
    "man",
    "flow",
    "pack",
    "headroom",
    "locate",
    "practise",
    "reach",
    "response",
    "store",
];

#[test]
fn help_of_every_command() {
    let folder = Folder::new();
    let mut all = folder.run(&["--help"]).out;
    for command in COMMANDS {
        let help = folder.run(&[command, "--help"]);
        assert_eq!((help.status, help.err.as_str()), (0, ""));
        assert_eq!(help.out.matches("\n  latchline ").count(), 2, "two examples: {}", help.out);
        all.push_str(&format!("\n$ latchline {command} --help\n{}", help.out));
    }
    insta::assert_snapshot!(all);
}

#[test]
fn new_refuses_to_overwrite_unless_forced() {
    let folder = Folder::new();
    let first = folder.run(&["new", "a.toml"]);
    assert_eq!(first.out, "wrote a.toml\nnext: latchline check a.toml\n");
    folder.write("a.toml", "mine");
    let again = folder.run(&["new", "a.toml"]);
    assert_eq!(again.status, 2);
    assert!(again.err.contains("exists already") && again.err.contains("--force"), "{}", again.err);
    assert_eq!(folder.read("a.toml"), "mine");
    assert_eq!(folder.run(&["new", "a.toml", "--force"]).status, 0);
    assert_ne!(folder.read("a.toml"), "mine");
    assert_eq!(folder.names(), ["a.toml"]);
}

#[test]
fn parts_are_listed_and_shown_as_they_are_written() {
    let folder = Folder::new();
    let list = folder.run(&["catalogue"]);
    assert_eq!((list.status, list.err.as_str()), (0, ""));
    let whole = folder.run(&["catalogue", "--whole"]).out;
    // Every part is listed with its line, and shown from that line on.
    let lines: Vec<&str> = whole.lines().collect();
    let mut parts = 0;
    for row in list.out.lines().filter(|row| row.starts_with("  ")) {
        let mut words = row.split_whitespace();
        let (Some(name), Some(line)) = (words.next(), words.last()) else { continue };
        let Ok(line) = line.parse::<usize>() else { continue };
        assert!(lines[line - 1].contains(name), "{row}");
        let shown = folder.run(&["catalogue", name]).out;
        assert!(shown.starts_with(&format!("built-in catalogue, line {line}\n")), "{shown}");
        assert!(shown.contains(lines[line - 1]), "{shown}");
        parts += 1;
    }
    assert!(parts > 40, "{}", list.out);
    folder.write("own.toml", "[cables.mine]\ntitle = \"Mine\"\nsource = \"a drum\"\ngauge = \"0.5 mm\"\npairs = 1\nprice = 1.5\n# the end\n");
    let own = folder.run(&["catalogue", "mine", "--catalogue", "own.toml"]);
    assert!(
        own.out.starts_with("own.toml, line 1\n") && !own.out.contains("the end"),
        "{}{}",
        own.out,
        own.err
    );
    let missing = folder.run(&["catalogue", "pear-0.8"]);
    assert_eq!(missing.status, 2);
    assert!(missing.err.contains("pair-0.8"), "{}", missing.err);
    folder.write(
        "broken.toml",
        "[cables.mine]\ntitle = \"M\"\nsource = \"d\"\npairs = 1\ngauge = \"0,5 mm\"\n",
    );
    let broken = folder.run(&["catalogue", "--catalogue", "broken.toml"]);
    assert_eq!(broken.status, 2);
    assert!(broken.err.contains("broken.toml:5:"), "{}", broken.err);
}

#[test]
fn reach_refuses_a_decimal_comma_and_draws_what_it_tells() {
    let folder = Folder::new();
    let comma = folder.run(&["reach", "ostrel-48", "--spacing", "5,5"]);
    assert_eq!(comma.status, 2);
    assert!(comma.err.contains("decimal takes a point"), "{}", comma.err);
    let drawn = folder.run(&["reach", "ostrel-48", "--chart", "reach.svg"]);
    assert_eq!((drawn.status, drawn.err.as_str()), (0, ""));
    let chart = folder.read("reach.svg");
    // Every cable of the table stands on the chart, by its own curve or in a note.
    let cables = drawn.out.lines().filter_map(|line| line.split_once("    ")).map(|(name, _)| name.trim());
    let cables: Vec<&str> = cables.filter(|name| name.contains('-')).collect();
    assert!(cables.len() > 10, "{}", drawn.out);
    for cable in cables {
        assert!(chart.contains(cable), "{cable}");
    }
    let other = folder.run(&["reach", "ostrel-48", "--chart", "reach.png"]);
    assert_eq!(other.status, 2);
    assert_eq!(folder.names(), ["reach.svg"]);
}

#[test]
fn the_demo_holds_and_its_sibling_fails() {
    let folder = Folder::new();
    let new = folder.run(&["new", "--demo", "demo"]);
    assert_eq!(new.status, 0, "{}", new.err);
    assert!(new.out.contains("next: latchline check demo/site.toml"), "{}", new.out);
    let good = folder.run(&["check", "demo/site.toml"]);
    assert_eq!((good.status, good.err.as_str()), (0, ""), "{}", good.out);
    let faulty = folder.run(&["check", "demo/faulty.toml", "--format", "short"]);
    assert_eq!(faulty.status, 1, "{}", faulty.out);
    let mut codes: Vec<&str> = faulty
        .out
        .lines()
        .filter_map(|line| line.split_once("error[").and_then(|(_, rest)| rest.split(']').next()))
        .collect();
    codes.sort_unstable();
    codes.dedup();
    assert!(codes.len() >= 8, "at least eight kinds of fault: {codes:?}");
    let again = folder.run(&["new", "--demo", "demo"]);
    assert_eq!(again.status, 2, "an existing demo is not replaced");
}

#[test]
fn accept_adds_an_entry_and_the_check_lists_it() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "[conditions]", "[policy]\nthin_margin = \"9.88 V\"\n\n[conditions]");
    let before = folder.run(&["check", "site.toml", "--fail-on", "warning"]);
    assert_eq!(before.status, 1, "{}", before.out);
    let text = folder.read("site.toml");
    let output = folder
        .command(&["accept", "site.toml", "thin-margin", "A-6:2", "--reason", "a \"spare\" set"])
        .env("SOURCE_DATE_EPOCH", "1700000000")
        .output()
        .unwrap();
    let accepted = ran(output);
    assert_eq!(accepted.status, 0, "{}", accepted.err);
    let changed = folder.read("site.toml");
    let entry = "\n[[accept]]\ncode = \"thin-margin\"\nelement = \"A-6:2\"\n\
                 reason = \"a \\\"spare\\\" set\"\ndate = 2023-11-14\n";
    assert_eq!(changed, format!("{text}{entry}"), "the entry is added and everything else stays");
    let after = folder.run(&["check", "site.toml", "--format", "short"]);
    assert!(after.out.contains("accepted warning[thin-margin]"), "{}", after.out);
    let again = folder.run(&["accept", "site.toml", "thin-margin", "A-6:2", "--reason", "x"]);
    assert_eq!(again.status, 2);
    assert!(again.err.contains("accepted already"), "{}", again.err);
    let nothing = folder.run(&["accept", "site.toml", "voltage-too-low", "--reason", "x"]);
    assert!(nothing.err.contains("no finding voltage-too-low"), "{}", nothing.err);
    for wrong in [&["--reason", " "][..], &["--reason", "x", "--date", "2.11.2026"]] {
        let ran = folder.run(&[&["accept", "site.toml", "thin-margin"], wrong].concat());
        assert_eq!(ran.status, 2, "{}", ran.err);
    }
    assert_eq!(folder.read("site.toml"), changed, "a refused acceptance changes nothing");
}

#[test]
fn acceptances_keep_mark_and_line_ends() {
    let folder = Folder::with_starter();
    // Else the lock's indoor cable at a door outdoors is a warning of its own.
    folder.edit("site.toml", "flex-0.75", "outdoor-0.8");
    folder.edit("site.toml", "[conditions]", "[policy]\nthin_margin = \"10 V\"\n\n[conditions]");
    let text = format!("\u{feff}{}", folder.read("site.toml").replace('\n', "\r\n"));
    folder.write("site.toml", &text);
    let ran =
        folder.run(&["accept", "site.toml", "thin-margin", "--reason", "known", "--date", "2026-11-02"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let changed = folder.read("site.toml");
    assert!(changed.starts_with('\u{feff}') && changed.lines().count() > text.lines().count());
    assert!(text.lines().all(|line| changed.contains(line)), "everything else stays");
    assert!(!changed.replace("\r\n", "").contains('\n'), "{changed:?}");
    assert_eq!(folder.run(&["check", "site.toml", "--fail-on", "warning"]).status, 0);
}

#[test]
fn addresses_are_listed_and_frozen() {
    let folder = Folder::with_starter();
    let list = folder.run(&["addresses", "site.toml"]);
    assert_eq!(list.status, 0, "{}", list.err);
    assert!(list.out.contains("A-6:2") && list.out.contains("Door stations"), "{}", list.out);
    let json = folder.run(&["addresses", "site.toml", "--format", "json"]);
    let document: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(document["stations"].as_array().unwrap().len(), 8);
    let text = folder.read("site.toml");
    let frozen = folder.run(&["addresses", "site.toml", "--freeze"]);
    assert_eq!(frozen.status, 0, "{}", frozen.err);
    assert!(folder.read("site.toml").contains("number = 6"));
    assert_eq!(
        folder.read("site.toml").lines().filter(|line| line.starts_with('#')).count(),
        text.lines().filter(|line| line.starts_with('#')).count(),
        "comments stay"
    );
    assert_eq!(folder.run(&["addresses", "site.toml"]).out, list.out, "freezing moves nothing");
    assert!(folder.run(&["addresses", "site.toml", "--freeze"]).out.contains("already"));
}

#[test]
fn a_found_list_is_held_against_the_plan() {
    let folder = Folder::with_starter();
    let plan: serde_json::Value =
        serde_json::from_str(&folder.run(&["addresses", "site.toml", "--format", "json"]).out).unwrap();
    let line = |station: &serde_json::Value| {
        let numbers: Vec<String> =
            station["fields"].as_array().unwrap().iter().map(|field| field["number"].to_string()).collect();
        format!("{} {}\n", station["class"].as_str().unwrap(), numbers.join("/"))
    };
    let stations = plan["stations"].as_array().unwrap();
    let all: String = stations.iter().map(line).collect();
    folder.write("found.txt", &all);
    let agrees = folder.run(&["addresses", "site.toml", "--found", "found.txt"]);
    assert_eq!(agrees.status, 0, "{}{}", agrees.out, agrees.err);
    assert_eq!(agrees.out, "8 of 8 planned stations answer as planned.\n");
    // A-2 set as 20: its two rotary switches are exchanged.
    let wrong = all.replacen("indoor 0/2/1", "indoor 0/20/1", 1);
    assert_ne!(wrong, all);
    folder.write("found.txt", format!("{wrong}scribble\n"));
    let differs = folder.run(&["addresses", "site.toml", "--found", "found.txt"]);
    assert_eq!(differs.status, 1);
    assert!(differs.out.contains("probably A-2") && differs.out.contains("exchanged"), "{}", differs.out);
    // That a line is not read is said first: what stands in it may not be missing.
    assert!(
        differs.out.starts_with("1 line of the list could not be read (9): put right first"),
        "{}",
        differs.out
    );
    assert!(differs.out.contains("\n  Line 9: no number.\n"), "{}", differs.out);
    let json = folder.run(&["addresses", "site.toml", "--found", "found.txt", "--format", "json"]);
    let document: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(document["missing"], serde_json::json!(["A-2"]));
    folder.write("found.txt", "");
    let empty = folder.run(&["addresses", "site.toml", "--found", "found.txt"]);
    assert_eq!(empty.status, 2);
    assert!(empty.err.contains("lists no device"), "{}", empty.err);
}

#[test]
fn explain_knows_every_code_and_the_nearest() {
    let folder = Folder::new();
    let list = folder.run(&["explain"]);
    assert_eq!(list.status, 0);
    let codes: Vec<&str> = list.out.lines().filter_map(|line| line.split_whitespace().nth(1)).collect();
    assert!(codes.len() > 60, "{}", codes.len());
    for code in codes {
        let page = folder.run(&["explain", code]);
        assert_eq!(page.status, 0, "{code}: {}", page.err);
        assert!(page.out.starts_with(code) && page.out.lines().count() > 3, "{code}: {}", page.out);
    }
    let near = folder.run(&["explain", "voltage-to-low"]);
    assert_eq!((near.status, near.out.as_str()), (2, ""));
    assert!(near.err.contains("did you mean voltage-too-low"), "{}", near.err);
}

#[test]
fn schemas_are_schemas() {
    let folder = Folder::new();
    for which in ["site", "catalogue", "check", "door", "supply"] {
        let schema: serde_json::Value = serde_json::from_str(&folder.run(&["schema", which]).out).unwrap();
        jsonschema::draft202012::new(&schema).unwrap();
        assert!(schema["properties"].is_object(), "{which}");
    }
    assert_eq!(folder.run(&["schema"]).out, folder.run(&["schema", "site"]).out);
}

#[test]
fn completions_and_manual_pages_name_every_command() {
    let folder = Folder::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = folder.run(&["completions", shell]);
        assert_eq!(script.status, 0, "{}", script.err);
        assert!(COMMANDS.iter().all(|command| script.out.contains(command)), "{shell}");
    }
    let main = folder.run(&["man"]).out;
    assert!(
        main.contains(".TH \"LATCHLINE\" \"1\" \"\"")
            && COMMANDS.iter().all(|command| main.contains(command)),
        "{main}"
    );
    for command in COMMANDS {
        assert!(
            folder.run(&["man", command]).out.contains(&format!("latchline {command}").replace(' ', "\\-")),
            "{command}"
        );
    }
    assert!(folder.run(&["man", "ask", "lock"]).out.contains(".TH \"LATCHLINE-ASK-LOCK\""));
    assert_eq!(folder.run(&["man", "ask", "luck"]).status, 2);
    assert_eq!(folder.run(&["man", "check", "lock"]).status, 2);
}

/// Every page, also of commands below commands, once; nothing that is there is replaced.
#[test]
fn all_manual_pages_are_written_into_a_folder() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["man", "--all", "pages/man1"]).status, 0);
    for (command, words) in [("", &[][..]), ("-check", &["check"]), ("-ask-lock", &["ask", "lock"])] {
        let page = folder.read(&format!("pages/man1/latchline{command}.1"));
        assert_eq!(page, folder.run(&[&["man"], words].concat()).out);
    }
    assert!(
        COMMANDS.iter().all(|command| folder.path(&format!("pages/man1/latchline-{command}.1")).exists())
    );
    let again = folder.run(&["man", "--all", "pages/man1"]);
    assert_eq!(again.status, 2, "{}", again.out);
    let dated = folder.command(&["man", "check"]).env("SOURCE_DATE_EPOCH", "1700000000").output().unwrap();
    assert!(String::from_utf8_lossy(&dated.stdout).contains("\"1\" \"2023-11-14\""));
}

#[test]
fn plain_networks_are_solved() {
    let folder = Folder::new();
    let network = r#"{"source": {"node": "s", "voltage_v": 50, "source_resistance_ohm": 0}, "nodes": ["s", "a"],
        "segments": [{"from": "s", "to": "a", "loop_resistance_ohm": 20}],
        "loads": [{"node": "a", "kind": "current", "value": 0.35}]}"#;
    folder.write("network.json", network);
    let ran = folder.run(&["flow", "network.json", "--no-margin"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.contains("43"), "50 V less 20 ohm times 0.35 A is 43 V: {}", ran.out);
}
