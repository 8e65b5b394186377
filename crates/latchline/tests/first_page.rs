//! What stands on the first page of a site on which something is wrong, and the commands it names.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::Folder;
use serde_json::Value;

fn demo() -> Folder {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    folder
}

fn json(folder: &Folder, site: &str) -> Value {
    serde_json::from_str(&folder.run(&["check", site, "--format", "json"]).out).unwrap()
}

fn strings(value: &Value) -> Vec<&str> {
    value.as_array().unwrap().iter().map(|one| one.as_str().unwrap()).collect()
}

/// The worst danger first; the same order as in the list of jobs.
const DANGERS: [&str; 8] = ["people", "fire", "supply", "riser", "run", "station", "address", "site"];

#[test]
fn a_site_of_54_findings_fits_80_lines() {
    let folder = demo();
    let out = folder.run(&["check", "demo/faulty.toml"]).out;
    let document = json(&folder, "demo/faulty.toml");
    assert!(document["findings"].as_array().unwrap().len() >= 54);
    assert!(out.lines().count() <= 80, "{} lines:\n{out}", out.lines().count());
    for language in ["en", "de"] {
        let mut command = folder.command(&["check", "demo/faulty.toml", "--language", language]);
        let narrow = crate::common::ran(command.env("COLUMNS", "80").output().unwrap()).out;
        let lines = narrow.lines().count();
        assert!(lines <= 80, "{lines} lines:\n{narrow}");
        // A command is never broken, however wide.
        let is_command = |line: &str| line.trim_start().starts_with("latchline ");
        assert!(narrow.lines().all(|line| line.chars().count() <= 80 || is_command(line)), "{narrow}");
        // Who is in danger is never cut off, and every code of an error or warning is there.
        for finding in document["findings"].as_array().unwrap() {
            assert!(narrow.contains(finding["code"].as_str().unwrap()), "{finding}");
        }
        for (index, job) in document["jobs"].as_array().unwrap().iter().enumerate() {
            let is_shown = narrow.contains(&format!("\nJ{:<2} ", index + 1));
            assert!(is_shown || (index >= 6 && job["danger"] != "people"), "J{}: {narrow}", index + 1);
        }
    }
    // The list of jobs stands before everything else.
    let at = |text: &str| out.find(text).unwrap_or_else(|| panic!("{text}: {out}"));
    assert!(
        at("fails (") < at("Jobs") && at("Jobs") < at("A-PS (") && at("A-PS (") < at("What else was found"),
        "{out}"
    );
    assert!(!out.contains("ightest"), "{out}");
    // No lines of files unless they are asked for.
    assert!(!out.contains("-->") && !out.contains("^^^"), "{out}");
    let lines = folder.run(&["check", "demo/faulty.toml", "--lines"]).out;
    assert!(lines.contains("--> demo/faulty.toml:") && lines.contains("^^^"));
    assert!(lines.lines().count() > 2 * out.lines().count());
    // Every error and warning is on the short page by its code and in its place.
    for finding in document["findings"].as_array().unwrap() {
        let code = finding["code"].as_str().unwrap();
        assert!(out.contains(code), "{code}");
    }
}

/// Jobs are J1, J2, ... and findings F1, F2, ... wherever they are shown and asked for; the bare numbers go on working.
#[test]
fn jobs_and_findings_are_told_apart() {
    let folder = demo();
    let page = folder.run(&["check", "demo/faulty.toml"]).out;
    assert!(page.contains("\nJ1  people: "), "{page}");
    // Every job on the page ends with the command that makes it, whole in a line.
    let document = json(&folder, "demo/faulty.toml");
    for job in &document["jobs"].as_array().unwrap()[..7] {
        assert!(page.contains(&format!("\n    {}\n", job["command"].as_str().unwrap())), "{page}");
    }
    assert!(!page.contains("\n 1. ") && !page.contains("\n 3. "), "{page}");
    let list = folder.run(&["fix", "demo/faulty.toml"]).out;
    assert!(list.starts_with("Findings F1, F2, ") && list.contains("\nF1  error: "), "{list}");
    assert!(list.contains("change 1: ") && !list.contains("\n1. "), "{list}");
    for (option, named, bare) in [("--job", "J3", "3"), ("--finding", "F3", "3")] {
        let ran = |value| folder.run(&["fix", "demo/faulty.toml", option, value]);
        let (named, bare) = (ran(named), ran(bare));
        assert_eq!((named.status, &named.out), (bare.status, &bare.out));
        assert!(!named.out.is_empty(), "{}", named.err);
    }
    let job = folder.run(&["fix", "demo/faulty.toml", "--job", "J3"]).out;
    let finding = folder.run(&["fix", "demo/faulty.toml", "--finding", "F3"]).out;
    assert_ne!(job, finding);
}

#[test]
fn jobs_come_worst_danger_first_then_errors_and_each_finding_is_in_one_cause() {
    let folder = demo();
    let document = json(&folder, "demo/faulty.toml");
    let jobs = document["jobs"].as_array().unwrap();
    let rank = |job: &Value| {
        let worst = &job["causes"][0];
        let is_error = |named: &Value| {
            let all = document["findings"].as_array().unwrap();
            all.iter().any(|one| {
                (&one["code"], &one["element"]) == (&named["code"], &named["element"])
                    && one["severity"] == "error"
            })
        };
        let error = worst["findings"].as_array().unwrap().iter().any(is_error);
        (DANGERS.iter().position(|danger| job["danger"] == *danger).unwrap(), !error)
    };
    // What is done only once other faults are mended comes after them.
    let waits = |job: &&Value| job["change_in_order"] == true;
    let in_turn: Vec<&Value> = jobs.iter().filter(|job| !waits(job)).collect();
    assert!(in_turn.windows(2).all(|pair| rank(pair[0]) <= rank(pair[1])), "{jobs:#?}");
    assert!(jobs.iter().any(|job| waits(&job)), "the supply with batteries: {jobs:#?}");
    // A warning about people stands before every error about less.
    assert_eq!((&jobs[0]["danger"], &jobs[1]["danger"]), (&Value::from("people"), &Value::from("fire")));
    assert_eq!(jobs[0]["causes"][0]["severity"], "warning");
    let mut in_causes = 0;
    for job in jobs {
        for cause in job["causes"].as_array().unwrap() {
            in_causes += cause["findings"].as_array().unwrap().len();
        }
    }
    let to_mend = document["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|finding| finding["severity"] != "advice" && finding["accepted"].is_null())
        .count();
    assert_eq!(in_causes, to_mend);
}

/// Whatever a job says that it clears is gone when it is done, and nothing else has come.
#[test]
fn the_command_of_a_job_does_what_the_job_says() {
    // The first and the third job that a single change does.
    for which in [0, 2] {
        let folder = demo();
        let names = |document: &Value| -> Vec<(String, String)> {
            let findings = document["findings"].as_array().unwrap();
            let name = |one: &Value| (one["code"].to_string(), one["element"].to_string());
            findings.iter().map(name).collect()
        };
        let before = json(&folder, "demo/faulty.toml");
        let mut by_one_change =
            before["jobs"].as_array().unwrap().iter().filter(|job| job["command"].is_string());
        let job = by_one_change.nth(which).unwrap();
        let command: Vec<&str> = job["command"].as_str().unwrap().split(' ').collect();
        assert_eq!(command[..2], ["latchline", "fix"]);
        let ran = folder.run(&command[1..]);
        assert!(ran.out.contains("written to"), "{}{}", ran.out, ran.err);
        let after = names(&json(&folder, "demo/faulty.toml"));
        let brings = job["change"]["brings"].as_array().cloned().unwrap_or_default();
        let name = |one: &Value| (one["code"].to_string(), one["element"].to_string());
        // What is lessened stays under its name, and is told as brought.
        let lessened: Vec<_> = brings.iter().map(name).collect();
        let clears = job["clears"].as_array().unwrap();
        assert!(!clears.is_empty());
        for gone in clears.iter().filter(|gone| !lessened.contains(&name(gone))) {
            assert!(!after.contains(&(gone["code"].to_string(), gone["element"].to_string())), "{gone}");
        }
        // What it brings that is no error is said with it.
        let mut known = names(&before);
        known.extend(lessened);
        for left in &after {
            assert!(known.contains(left), "{left:?} has come");
        }
    }
}

/// Seven of eight stations of one chain are low: the chain is the cause, and it is one job. The loop of 0.5 mm pairs is 176 ohm/km
/// (IEC 60228, 0.2 mm²: about 88 ohm/km a leg), so that 8 stations of 0.45 W on 45 m each drop far below 36 V.
#[test]
fn stations_that_are_low_on_one_riser_are_one_cause() {
    let folder = Folder::with_starter();
    let mut site = folder.read("site.toml");
    let more = "A-7 = { place = \"A/2\" }\nA-8 = { place = \"A/2\" }\nA-9 = { place = \"A/2\" }\nA-10 = { place = \"A/2\" }\n\n# Cable paths";
    site = site.replace("\n# Cable paths", more);
    site = site.replace(
        "to = [\"A-4\", \"A-5\", \"A-6\", \"A-6:2\"], lengths = [\"14 m\", \"6 m\", \"7.5 m\", \"4 m\"]",
        "to = [\"A-4\", \"A-5\", \"A-6\", \"A-6:2\", \"A-7\", \"A-8\", \"A-9\", \"A-10\"], cable = \"pair-0.5\", first = \"140 m\", spacing = \"25 m\"",
    );
    folder.write("long.toml", site);
    let document = json(&folder, "long.toml");
    let low = |cause: &&Value| {
        cause["findings"].as_array().unwrap().iter().any(|one| one["code"] == "voltage-too-low")
    };
    let causes: Vec<&Value> = document["jobs"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|job| job["causes"].as_array().unwrap())
        .collect();
    let low: Vec<&&Value> = causes.iter().filter(|cause| low(cause)).collect();
    assert_eq!(low.len(), 1, "{causes:#?}");
    assert!(low[0]["findings"].as_array().unwrap().len() >= 5, "{low:#?}");
    assert_eq!(low[0]["place"], "flats-2");
    assert_eq!(strings(&low[0]["way"]), ["feed", "flats-2"]);
    let out = folder.run(&["check", "long.toml"]).out;
    assert!(out.contains("stations on flats-2"), "{out}");
}

#[test]
fn a_collapse_names_the_riser() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "\"7.5 m\"", "\"950 m\"");
    let document = json(&folder, "site.toml");
    let job = &document["jobs"][0];
    assert_eq!(job["causes"][0]["findings"][0]["code"], "no-operating-point");
    assert_eq!(strings(&job["causes"][0]["way"]), ["feed", "flats-2"]);
    let out = folder.run(&["check", "site.toml"]).out;
    let out = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(out.contains("hardest to feed is run flats-2; it could carry "), "{out}");
}

/// A thicker cable in a chain is pulled to every dwelling on it; a supply is changed in its cupboard.
#[test]
fn dwellings_to_enter_are_those_whose_terminals_change() {
    let folder = demo();
    let document = json(&folder, "demo/faulty.toml");
    let jobs = document["jobs"].as_array().unwrap();
    let at_a_supply: Vec<&Value> =
        jobs.iter().filter(|job| job["change"]["changes"][0]["path"][0] == "supplies").collect();
    assert!(!at_a_supply.is_empty(), "{jobs:#?}");
    assert!(at_a_supply.iter().all(|job| strings(&job["enters"]).is_empty()), "{at_a_supply:#?}");
    let thicker = jobs
        .iter()
        .find(|job| job["change"]["changes"][0]["path"][1] == "A-R5")
        .unwrap_or_else(|| panic!("{jobs:#?}"));
    assert_eq!(strings(&thicker["enters"]), ["A-44", "A-45"]);
}

#[test]
fn a_site_that_holds_has_no_jobs_and_says_what_is_tightest() {
    let folder = Folder::with_starter();
    let out = folder.run(&["check", "site.toml"]).out;
    assert!(out.contains("Tightest: ") && !out.contains("Jobs"), "{out}");
    assert!(json(&folder, "site.toml")["jobs"].is_null());
}

#[test]
fn what_is_not_judged_stands_in_the_verdict_of_a_failing_site() {
    let folder = demo();
    let document = json(&folder, "demo/faulty.toml");
    let count = document["not_judged"].as_array().unwrap().len();
    let out = folder.run(&["check", "demo/faulty.toml"]).out;
    let first = out.split(").").next().unwrap().replace('\n', " ");
    assert_eq!(first.contains("not judged"), count > 0, "{first}");
}

/// A job before it takes a lesser form of the last one as well: screened cable beside mains is an advice, unscreened a warning (common practice, no
/// source). The page says which, and whoever does the last one alone is told what it leaves.
#[test]
fn a_job_of_the_failing_demo_says_what_it_leaves() {
    let folder = demo();
    // The cable for outdoors that does for the run beside mains does for its place as well: one job, the first.
    let ran = folder.run(&["fix", "demo/faulty.toml", "--job", "1", "--write"]);
    let told = "left of it: advice beside-mains at B-bins";
    let out = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(out.contains(told) && out.contains("written to"), "{}{}", ran.out, ran.err);
    let after = json(&folder, "demo/faulty.toml");
    let left: Vec<&Value> = after["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|one| one["element"] == "B-bins" && one["code"] == "beside-mains")
        .collect();
    assert!(left.len() == 1 && left[0]["severity"] == "advice", "{left:?}");
    let outdoors = |one: &Value| one["element"] == "B-bins" && one["code"] == "cable-unsuitable";
    assert!(!after["findings"].as_array().unwrap().iter().any(outdoors), "{after}");
}

/// A supply set to 30 V, where all on it need 36 V: the setting is the one cause of all that is low on it, and what sets it back clears all.
#[test]
fn a_supply_set_too_low_is_the_one_cause_of_what_is_low_on_it() {
    let folder = Folder::with_starter();
    folder.edit(
        "site.toml",
        "model = \"ostrel-ps-120\"",
        "model = \"ostrel-ps-120\", set_voltage = \"30 V\"",
    );
    let document = json(&folder, "site.toml");
    let jobs = document["jobs"].as_array().unwrap();
    assert_eq!(jobs.len(), 1, "{jobs:#?}");
    let causes = jobs[0]["causes"].as_array().unwrap();
    let low = |cause: &&Value| {
        cause["findings"].as_array().unwrap().iter().any(|one| one["code"] == "voltage-too-low")
    };
    let with_low: Vec<&Value> = causes.iter().filter(low).collect();
    assert_eq!(with_low.len(), 1, "{causes:#?}");
    let codes: Vec<&str> =
        with_low[0]["findings"].as_array().unwrap().iter().filter_map(|one| one["code"].as_str()).collect();
    // The setting leads; seven dwelling stations, the door station and the distributor are low.
    assert_eq!(codes[0], "supply-set-too-low");
    assert_eq!(codes.iter().filter(|code| **code == "voltage-too-low").count(), 9, "{codes:?}");
    let change = &jobs[0]["change"];
    assert_eq!(change["changes"][0]["path"], serde_json::json!(["supplies", "PS", "set_voltage"]));
    let errors = document["findings"].as_array().unwrap().iter().filter(|one| one["severity"] == "error");
    let clears = jobs[0]["clears"].as_array().unwrap();
    for error in errors {
        let is_error = |one: &&Value| one["code"] == error["code"] && one["element"] == error["element"];
        assert!(clears.iter().any(|one| is_error(&one)), "{error}");
    }
}

/// The run to a door may be called as the door is: what is wrong at the door is the same on both sites.
#[test]
fn the_danger_of_a_fault_does_not_follow_from_names() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "length = \"6 m\", hold_time", "length = \"160 m\", hold_time");
    let danger = || json(&folder, "site.toml")["jobs"][0]["danger"].clone();
    assert_eq!(danger(), "station");
    folder.edit("site.toml", "door = { from", "front = { from");
    assert_eq!(danger(), "station");
}

/// Two blocks that are built alike, each with a supply, four distributors and ten floors of five flats.
fn two_blocks() -> String {
    let floors =
        |block: &str| (1..10).map(|floor| format!("\"{block}/{floor}\"")).collect::<Vec<_>>().join(", ");
    let mut text = String::from(
        "[site]\ntitle = \"Two blocks\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7x\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.5\"\n\
         [policy]\nstandby_hours = 6\n[buildings]\n",
    );
    let blocks = ["A", "B"];
    let mut each = |line: &dyn Fn(&str) -> String, head: &str| {
        text.push_str(head);
        blocks.iter().for_each(|block| text.push_str(&line(block)));
    };
    let numbers = (0..10).map(|floor| format!("\"{floor}\"")).collect::<Vec<_>>().join(", ");
    each(&|block| format!("{block} = {{ floors = [{numbers}] }}\n"), "");
    each(
        &|block| format!("{block}-PS = {{ model = \"ostrel-ps-120b\", place = \"{block}/0\" }}\n"),
        "[supplies]\n",
    );
    let boxes = |block: &str| {
        (1..5)
            .map(|at| format!("{block}-D{at} = {{ model = \"ostrel-d4\", place = \"{block}/0\" }}\n"))
            .collect()
    };
    each(&boxes, "[distributors]\n");
    each(
        &|block| {
            format!(
                "{block}-door = {{ role = \"main\", place = \"{block}/0\", calls = [\"{block}/0\", {}], lock = {{ model = \"strike-12\", cable = \"flex-0.75\", length = \"6 m\" }} }}\n",
                floors(block)
            )
        },
        "[entrances]\n",
    );
    let flats = |block: &str| {
        (0..50)
            .map(|at| format!("{block}-{}{} = {{ place = \"{block}/{}\" }}\n", at / 5, at % 5 + 1, at / 5))
            .collect()
    };
    each(&flats, "[dwellings]\n");
    let runs = |block: &str| {
        let mut lines = format!(
            "{block}-feed = {{ from = \"{block}-PS\", to = \"{block}-D1\", cable = \"flex-1.5\", length = \"2 m\" }}\n"
        );
        for at in 2..5 {
            lines.push_str(&format!("{block}-l{at} = {{ from = \"{block}-D1.{}\", to = \"{block}-D{at}\", cable = \"flex-1.5\", length = \"1 m\" }}\n", at - 1));
        }
        lines.push_str(&format!("{block}-dr = {{ from = \"{block}-D1.4\", to = \"{block}-door\", cable = \"outdoor-0.8\", length = \"12 m\" }}\n"));
        for floor in 0..10 {
            let stops: Vec<String> = (1..6).map(|flat| format!("\"{block}-{floor}{flat}\"")).collect();
            lines.push_str(&format!("{block}-R{floor} = {{ from = \"{block}-D{}.{}\", to = [{}], first = \"60 m\", spacing = \"12 m\" }}\n", 2 + floor / 4, 1 + floor % 4, stops.join(", ")));
        }
        lines
    };
    each(&runs, "[runs]\n");
    text
}

/// A hundred stations in two equal blocks that fail alike: what is said of one block is not said again of the other, and both are named.
#[test]
fn two_equal_blocks_that_fail_fit_80_lines() {
    let folder = Folder::new();
    folder.write("site.toml", two_blocks());
    for language in ["en", "de"] {
        let mut command = folder.command(&["check", "site.toml", "--language", language]);
        let page = crate::common::ran(command.env("COLUMNS", "80").output().unwrap()).out;
        assert!(page.lines().count() <= 80, "{} lines:\n{page}", page.lines().count());
        for named in ["A-PS", "B-PS", "A-R0", "A-05", "B-05", "J1, J2  supply-overloaded: A-PS, B-PS"] {
            assert!(page.contains(named), "{named}: {page}");
        }
    }
    let document = json(&folder, "site.toml");
    let page = folder.run(&["check", "site.toml"]).out;
    for finding in document["findings"].as_array().unwrap() {
        assert!(page.contains(finding["code"].as_str().unwrap()), "{finding}: {page}");
    }
}

/// What no change mends is told by `fix` as by `check`, with what was tried and why each falls short.
#[test]
fn fix_says_why_nothing_mends_a_finding() {
    let folder = demo();
    let list = folder.run(&["fix", "demo/faulty.toml"]).out;
    let numbered = |what: &str| {
        let line = list.lines().find(|line| line.contains(what)).unwrap_or_else(|| panic!("{what}: {list}"));
        let ran =
            folder.run(&["fix", "demo/faulty.toml", "--finding", line.split_whitespace().next().unwrap()]);
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let none = "no change or pair of changes is known that mends this";
    // What a job of the check mends is no finding that nothing mends.
    let document = json(&folder, "demo/faulty.toml");
    let jobs = document["jobs"].as_array().unwrap();
    let of_battery = |job: &Value| {
        let clears = job["clears"].as_array().into_iter().flatten();
        job["change"].is_object() && clears.into_iter().any(|one| one["code"] == "battery-missing")
    };
    let number = jobs.iter().position(of_battery).unwrap_or_else(|| panic!("{document}")) + 1;
    let battery = numbered("A-PS has no battery");
    assert!(battery.contains(&format!("job J{number} of check mends it")), "{battery}");
    assert!(!battery.contains(none), "{battery}");
    // Nine kilometres to the flats: no cable of the catalogue and no pair of changes does.
    let far = Folder::with_starter();
    far.edit("site.toml", "\"7.5 m\"", "\"9000 m\"");
    let ran = far.run(&["fix", "site.toml", "--finding", "F1"]).out;
    let joined = ran.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(joined.contains(none) && joined.contains("tried: "), "{ran}");
}
