//! `locate` and `practise` as whole programs.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

use crate::common::{Folder, repository_file};
use serde_json::Value;

fn demo() -> Folder {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    folder
}

fn json(folder: &Folder, readings: &[&str]) -> Value {
    let ran = folder.run(&[&["locate", "demo/site.toml", "--format", "json"], readings].concat());
    assert!(ran.status < 2, "{}", ran.err);
    serde_json::from_str(&ran.out).unwrap()
}

/// The published schema is the one that the program prints, and results follow it.
#[test]
fn json_follows_its_published_schema() {
    let folder = demo();
    let path = repository_file("docs/schema/locate.schema.json");
    let current = folder.run(&["schema", "locate"]).out;
    if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
        std::fs::write(&path, &current).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), current, "set LATCHLINE_UPDATE_DOCS and run again");
    let validator = jsonschema::draft202012::new(&serde_json::from_str(&current).unwrap()).unwrap();
    for readings in [&["demo/readings.toml"][..], &["A-12=0V", "A-11=47V"], &["A-R1=open", "nowhere=3V"], &[]]
    {
        let document = json(&folder, readings);
        let errors: Vec<String> = validator.iter_errors(&document).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{readings:?}: {errors:?}");
        let total: f64 = document["causes"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| one["probability"].as_f64().unwrap())
            .sum();
        assert!(total + document["none_of_these"].as_f64().unwrap() < 1.0 + 1e-9, "{readings:?}");
    }
}

/// The table, and what readings say from it, follow their schema; what the table does not have is named, and csv is a form of the table alone.
#[test]
fn the_table_of_faults_follows_its_published_schema() {
    let folder = demo();
    let path = repository_file("docs/schema/locate-table.schema.json");
    let current = folder.run(&["schema", "locate-table"]).out;
    if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
        std::fs::write(&path, &current).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), current, "set LATCHLINE_UPDATE_DOCS and run again");
    let validator = jsonschema::draft202012::new(&serde_json::from_str(&current).unwrap()).unwrap();
    let ask = |more: &[&str]| {
        let arguments = [&["locate", "demo/site.toml", "--table"], more].concat();
        folder.run(&arguments)
    };
    for more in [&[][..], &["A-15=41V", "A-PS=0.8A", "A-15@ringing=33V", "A-15=restarts"]] {
        let out = ask(&[more, &["--format", "json"]].concat()).out;
        let document: Value = serde_json::from_str(&out).unwrap();
        let errors: Vec<String> = validator.iter_errors(&document).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{more:?}: {errors:?}");
        assert_eq!(document["places"].is_array(), more.is_empty());
        if !more.is_empty() {
            let ranking = &document["ranking"];
            let causes = ranking["causes"].as_array().unwrap();
            let total: f64 = causes.iter().map(|one| one["probability"].as_f64().unwrap()).sum();
            assert!((total + ranking["none_of_these"].as_f64().unwrap() - 1.0).abs() < 1e-9);
            assert_eq!(ranking["used"], 2);
            assert_eq!(ranking["left_out"].as_array().unwrap().len(), 2);
        }
    }
    let csv = ask(&["--format", "csv"]).out;
    let mut lines = csv.lines();
    let columns = lines.next().unwrap().split(',').count();
    assert_eq!(columns, 14);
    assert!(lines.clone().count() > 50 && lines.all(|line| line.split(',').count() == columns));
    let text = ask(&[]).out;
    assert!(text.contains("Run A-R1: begins at A-D2.2, ends at A-15") && text.contains("without a fault"));
    let german = ask(&["--language", "de"]).out;
    assert!(
        german.contains("Strang A-R1: beginnt an A-D2.2, endet an A-15") && german.contains("ohne Fehler")
    );
    let ranked = ask(&["A-15=0V"]).out;
    assert!(ranked.contains("From the table of faults alone"));
    for refused in [
        &["locate", "demo/site.toml", "A-15=0V", "--format", "csv"][..],
        &["locate", "demo/site.toml", "--table", "A-15@ringing=33V"],
    ] {
        assert_eq!(folder.run(refused).status, 2, "{refused:?}");
    }
}

/// The fault of the demo was hidden by `practise` with seed 5; two readings put it into its run.
#[test]
fn the_hidden_fault_of_the_demo_is_found() {
    let folder = demo();
    let document = json(&folder, &["demo/readings.toml"]);
    let mut first = document["causes"].as_array().unwrap().iter().filter(|cause| cause["class"] == 1);
    let hidden = first.find(|cause| cause["kind"] == "joint" && cause["element"] == "A-R1: A-14 – A-15");
    let size = &hidden.expect("in the first class")["parameter"];
    assert!(size["low"].as_f64().unwrap() < 36.3 && size["high"].as_f64().unwrap() > 36.3, "{size}");
    assert!(document["next_reading"]["at"].is_string());
    let more = json(&folder, &["demo/readings.toml", "A-14@ringing:A-15=47.05V"]);
    assert_eq!(more["causes"][0]["element"], "A-R1: A-14 – A-15");
}

#[test]
fn what_cannot_be_used_is_told_and_decides_the_status() {
    let folder = demo();
    let run = |readings: &[&str]| folder.run(&[&["locate", "demo/site.toml"], readings].concat());
    assert_eq!(run(&["A-12=47V"]).status, 0);
    let some = run(&["A-12=47V", "A-12=47mV"]);
    assert_eq!(some.status, 1);
    assert!(some.err.contains("2: ") && some.err.contains("was it 47 V?"), "{}", some.err);
    let none = run(&["A-99=47V"]);
    assert_eq!((none.status, none.out.as_str()), (2, ""));
    assert!(run(&[]).out.contains("no reading and no symptom"));
    let failing = folder.run(&["locate", "demo/faulty.toml", "A-12=47V"]);
    assert!(failing.status == 2 || failing.out.contains("the site as drawn fails"), "{}", failing.out);
}

/// A joint takes volts away and adds none (Kirchhoff): more than the supply's most is asked about, whoever reads it.
#[test]
fn more_than_the_supply_gives_is_asked_about() {
    let folder = demo();
    let run = |reading: &str| folder.run(&["locate", "demo/site.toml", reading]);
    for reading in ["A-15@ringing=55V", "A-15=50V"] {
        let ran = run(reading);
        assert_eq!(ran.status, 2, "{reading}: {}", ran.out);
        assert!(ran.err.contains("a fault only lowers a voltage") && ran.err.contains("49.4"), "{}", ran.err);
    }
    assert!(run("A-15=50V!").status == 0 && run("A-15=49.5V").status == 0);
}

/// Nothing known: what to ask comes first, and no lock is accused.
#[test]
fn without_any_reading_it_says_what_to_ask() {
    let out = demo().run(&["locate", "demo/site.toml"]).out;
    let lines: Vec<&str> = out.lines().collect();
    assert!(
        lines[0].contains("no reading and no symptom") && lines[1].starts_with("Ask the caller"),
        "{out}"
    );
    assert!(out.contains("Read next") && !out.contains("Keep the door passable"), "{out}");
}

/// Nobody may take the sum of what is left for certainty about one of it.
/// Of an outcome that leaves many causes the line says so, in both languages.
#[test]
fn no_outcome_is_left_without_a_meaning() {
    let folder = demo();
    for language in ["en", "de"] {
        let ran = folder.run(&["locate", "demo/site.toml", "--language", language]);
        let open: Vec<&str> =
            ran.out.lines().filter(|line| line.contains(" %:") && line.ends_with(':')).collect();
        assert!(open.is_empty(), "{open:?}");
        assert!(
            ran.out.contains(if language == "en" { "no cause stands out" } else { "sticht keine Ursache" }),
            "{}",
            ran.out
        );
    }
}

#[test]
fn a_class_is_not_said_to_be_sure() {
    let out = demo().run(&["locate", "demo/site.toml", "demo/readings.toml"]).out.replace('\n', " ");
    assert!(out.starts_with("Not decided yet") && out.contains("Likeliest of them, at"), "{out}");
    assert!(!out.contains("sure that"), "{out}");
}

/// The words follow the probabilities: what stands far above the rest is not said to be as likely as the rest, and readings that are as
/// predicted show no fault.
#[test]
fn the_first_sentence_follows_the_probabilities() {
    let folder = Folder::with_starter();
    let one_line = |readings: &[&str]| {
        let ran = folder.run(&[&["locate", "site.toml"], readings].concat());
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let healthy = one_line(&["A-3=47.8V", "A-2=47.9V"]);
    assert!(
        healthy.starts_with("These readings are as predicted: no fault shows in them. If there is one"),
        "{healthy}"
    );
    assert!(!healthy.contains("Not decided yet"), "{healthy}");
    let told = one_line(&["A-3=47.8V", "A-3=dim"]);
    assert!(told.starts_with("The readings are as predicted: only what was told"), "{told}");
    let weak = one_line(&["A-3=30V"]);
    assert!(!weak.contains("as predicted"), "{weak}");
}

/// What is proposed has outcomes that say different things.
#[test]
fn outcomes_of_the_next_reading_differ() {
    let folder = demo();
    for readings in [&["A-15@ringing=33V", "A-15=restarts"][..], &["A-15=restarts"], &["A-15=dead"]] {
        let document = json(&folder, readings);
        let outcomes = document["next_reading"]["outcomes"].as_array().unwrap();
        assert!(outcomes.len() > 1, "{readings:?}: {outcomes:?}");
        let total: f64 = outcomes.iter().map(|one| one["probability"].as_f64().unwrap()).sum();
        assert!((total - 1.0).abs() < 0.01, "{readings:?}: {total}");
        let leaders: Vec<u64> = outcomes.iter().map(|one| one["causes"][0].as_u64().unwrap()).collect();
        assert!(leaders.windows(2).all(|pair| pair[0] != pair[1]), "{readings:?}: {leaders:?}");
        let shares = |one: &Value| {
            one["shares"].as_array().unwrap().iter().map(|share| share.as_f64().unwrap()).sum::<f64>()
        };
        assert!(outcomes.iter().all(|one| shares(one) < 1.0 + 1e-9));
    }
    // No meter tells a lock that does not release from a door that binds.
    let locks = folder.run(&["locate", "demo/site.toml", "gate=no-release"]).out;
    assert!(locks.contains("No meter"), "{locks}");
}

/// From symptom to the proved mend through a pipe, as somebody would type it: the fault of seed 5 that the demo's readings are of.
#[test]
fn the_dialogue_leads_from_symptom_to_proof() {
    let folder = demo();
    let readings = [("A-D2.2", "47.6V"), ("A-15@ringing", "43.9V"), ("A-14@ringing:A-15", "47.05V")];
    let mut typed = String::from("A-99\nA-15\ncomes-and-goes\n\n");
    for (place, value) in readings {
        typed.push_str(&format!("{place}={value}\n"));
    }
    typed.push_str("all\n47mV\nq\n");
    let ran = folder.run_with_input(&["locate", "demo/site.toml", "--dialogue"], typed.as_bytes());
    assert_eq!(ran.status, 0, "{}", ran.err);
    let out = ran.out.replace('\n', " ");
    assert!(out.contains("no place \"A-99\"") && out.contains("Less likely:"), "{out}");
    assert!(out.contains("latchline locate demo/site.toml A-15=comes-and-goes A-D2.2=47.6V"), "{out}");
    assert!(out.contains("bad joint or terminal, A-R1: A-14 – A-15"), "{out}");
    // Sure enough from the start: straight to the mend and its proof.
    let sure = [
        "locate",
        "demo/site.toml",
        "A-12=46.9V",
        "A-13=0V",
        "A-13=dead",
        "A-12=works",
        "--confidence",
        "50",
        "--dialogue",
    ];
    for (read, said) in [("47.1V", "this reading confirms the mend"), ("12V", "still there")] {
        let ran = folder.run_with_input(&sure, format!("{read}\n").as_bytes());
        assert!(ran.out.replace('\n', " ").contains(said), "{}", ran.out);
    }
    // What is typed for a reading that cannot be taken leads to another one, and an input that ends is no error.
    let ran = folder.run_with_input(&["locate", "demo/site.toml", "--dialogue"], b"A-15\ndead\n\nnone\n");
    let proposed: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("Read next")).collect();
    assert!(ran.status == 0 && proposed.len() == 2 && proposed[0] != proposed[1], "{}", ran.out);
}

/// How a figure was read off and where the leads were, on the command line as in a file.
#[test]
fn how_a_reading_was_taken_is_told_behind_a_comma() {
    let folder = demo();
    folder.write(
        "one.toml",
        "[[reading]]\nat = \"A-11\"\nto = \"A-12\"\nvalue = \"1.5 V\"\nlead = \"same-leg\"\ntaken = \"displayed\"\ninstrument = \"plain\"\n",
    );
    assert_eq!(
        json(&folder, &["A-11..A-12=1.5V,same-leg,displayed,plain"])["causes"],
        json(&folder, &["one.toml"])["causes"]
    );
    let earth = folder.run(&["locate", "demo/site.toml", "A-12=24V,earth"]);
    assert!(earth.status == 2 && earth.err.contains("a bus without earth"), "{}", earth.err);
    let unknown = folder.run(&["locate", "demo/site.toml", "A-12=24V,quickly"]);
    assert!(unknown.status == 2 && unknown.err.contains("quickly"), "{}", unknown.err);
}

/// The list of devices that the system found: the first that is missing and all beyond it, at the end of a run, say where the run is broken.
#[test]
fn the_list_of_devices_places_a_break() {
    let folder = demo();
    let names = json_stations(&folder);
    let listed = |missing: &[&str]| {
        let kept: Vec<&str> =
            names.iter().map(String::as_str).filter(|name| !missing.contains(name)).collect();
        json(&folder, &[&format!("found={}", kept.join(" "))])
    };
    let broken = listed(&["A-13", "A-14", "A-15"]);
    assert_eq!(broken["causes"][0]["kind"], "open");
    assert_eq!(broken["causes"][0]["element"], "A-R1: A-12 – A-13");
    let one = listed(&["A-13"]);
    let first: Vec<&Value> = one["causes"].as_array().unwrap().iter().take(5).collect();
    assert!(first.iter().all(|cause| cause["element"] == "A-13"), "{first:?}");
}

/// Names of all stations of the demo.
fn json_stations(folder: &Folder) -> Vec<String> {
    let out = folder.run(&["addresses", "demo/site.toml", "--format", "json"]).out;
    let document: Value = serde_json::from_str(&out).unwrap();
    let names =
        document["stations"].as_array().unwrap().iter().map(|one| one["id"].as_str().unwrap().to_string());
    names.collect()
}

#[test]
fn it_speaks_german() {
    let folder = demo();
    let ran = folder.run(&["locate", "demo/site.toml", "A-12=0V", "A-11=47V", "--language", "de"]);
    assert!(ran.out.contains("Unterbrechung") && !ran.out.contains("Read next"), "{}", ran.out);
}

/// A table of rates that was printed is read again; the same seed hides and answers the same.
#[test]
fn rates_can_be_edited_and_practice_repeats() {
    let folder = demo();
    let printed = folder.run(&["locate", "--show-rates"]).out;
    folder.write("rates.toml", &printed);
    let ran = |rates: &[&str]| folder.run(&[&["locate", "demo/site.toml", "A-12=33V"], rates].concat());
    assert_eq!(ran(&[]).out, ran(&["--rates", "rates.toml"]).out);
    folder.write("rates.toml", printed.replace("[groups]", "[group]"));
    let wrong = ran(&["--rates", "rates.toml"]);
    assert!(wrong.status == 2 && wrong.err.contains("group"), "{}", wrong.err);
    let practise =
        |extra: &[&str]| folder.run(&[&["practise", "demo/site.toml", "--seed", "5"], extra].concat());
    let asked = ["--ask", "A-15@ringing", "--ask", "loop:A-R1"];
    assert_eq!(practise(&asked).out, practise(&asked).out);
    let answered = practise(&[&asked[..], &["--answer", "joint:A-15"]].concat());
    assert!(
        answered.out.contains("Right.") && answered.out.contains("You took 2 readings"),
        "{}",
        answered.out
    );
    assert!(practise(&["--answer", "solder:A-15"]).err.contains("no kind of cause"));
}

/// Every flat of the block is fed by the same supply, so a voltage that is low at one of them, of which alone is told, accuses the way to
/// it first; the same voltage at flats of other runs, or at the supply, accuses the supply.
#[test]
fn one_flat_alone_accuses_its_own_way_before_the_supply_of_all() {
    let folder = demo();
    let first = |readings: &[&str]| {
        let document = json(&folder, readings);
        let cause = &document["causes"][0];
        (cause["kind"].as_str().unwrap().to_string(), cause["element"].as_str().unwrap().to_string())
    };
    for readings in [&["A-15@ringing=33V"][..], &["A-15@ringing=33V", "A-15=restarts"]] {
        let (kind, element) = first(readings);
        assert!(kind == "joint" && element.starts_with("A-R1"), "{readings:?}: {kind}, {element}");
    }
    for readings in [&["A-15@ringing=33V", "A-31@ringing=33.5V"][..], &["A-15@ringing=33V", "A-PS=34V"]] {
        assert_eq!(first(readings), ("supply-low".into(), "A-PS".into()), "{readings:?}");
    }
}

/// A restart alone points to what lowers the voltage while a station is called, not to the locks of the house; few causes are listed.
#[test]
fn a_symptom_alone_lists_what_it_points_to() {
    let folder = Folder::new();
    folder.run(&["new", "--demo", "demo"]);
    let out = folder.run(&["locate", "demo/site.toml", "A-15=restarts"]).out;
    let first = out.lines().next().unwrap();
    assert!(!first.contains("lock"), "{out}");
    let causes = out.split("If that cannot be done").next().unwrap();
    assert!(
        causes.lines().filter(|line| line.starts_with("  ") && line.contains(" % ")).count() <= 16,
        "{out}"
    );
    assert!(out.replace("\n", " ").contains("without any sign so far"), "{out}");
}

/// A battery that is missing says nothing about a station that is dead on mains, nor does an address elsewhere: what is wrong in the design counts only
/// where it can be why that happens there.
#[test]
fn an_error_of_another_kind_does_not_blame_the_design() {
    let folder = Folder::with_starter();
    folder.write("starter.toml", std::fs::read_to_string(folder.path("site.toml")).unwrap());
    let share = |site: &str, told: &str| {
        let ran = folder.run(&["locate", site, told, "--format", "json"]);
        let document: Value = serde_json::from_str(&ran.out).unwrap();
        let causes = document["causes"].as_array().unwrap().clone();
        let of_design = causes.iter().find(|cause| cause["kind"] == "design-as-drawn");
        of_design.map_or(0.0, |cause| cause["probability"].as_f64().unwrap())
    };
    folder.write(
        "battery.toml",
        &(std::fs::read_to_string(folder.path("site.toml")).unwrap() + "\n[policy]\nstandby_hours = 8\n"),
    );
    let checked = folder.run(&["check", "battery.toml"]).out;
    assert!(checked.contains("battery-missing"), "{checked}");
    for told in ["A-6=dead", "A-6=restarts"] {
        let (sound, broken) = (share("starter.toml", told), share("battery.toml", told));
        assert!((sound - broken).abs() < 1e-9 && broken < 0.2, "{told}: {sound} {broken}");
    }
}

/// One band for one reading: what `addresses` prints as planned, and the error of a good meter (0.5 % and 0.03 V, its stated limit) to both sides.
#[test]
fn a_voltage_within_what_is_planned_is_no_fault() {
    let folder = demo();
    let planned: Value =
        serde_json::from_str(&folder.run(&["addresses", "demo/site.toml", "A-15", "--format", "json"]).out)
            .unwrap();
    let range = &planned[0]["standby_v"];
    let (lowest_v, highest_v) = (range["lowest"].as_f64().unwrap(), range["highest"].as_f64().unwrap());
    let document = json(&folder, &["A-15=dead"]);
    let band = &document["as_drawn"][0]["reading"];
    let meter_v = |value_v: f64| 0.005 * value_v + 0.03;
    let (low_v, high_v) = (band["low"].as_f64().unwrap(), band["high"].as_f64().unwrap());
    assert!((low_v - (lowest_v - meter_v(lowest_v))).abs() < 0.01, "{low_v} {lowest_v}");
    assert!((high_v - (highest_v + meter_v(highest_v))).abs() < 0.01, "{high_v} {highest_v}");
    // Just within it: no fault shows, in whatever words.
    let reading = format!("A-15={:.2}V", lowest_v + 0.02);
    let said = folder.run(&["locate", "demo/site.toml", &reading, "--format", "short"]).out;
    assert!(said.contains("is within what is planned (") || said.contains("as predicted"), "{said}");
    assert!(!said.contains("Look first"), "{said}");
    let below = format!("A-15={:.2}V", lowest_v - 1.0);
    let said = folder.run(&["locate", "demo/site.toml", &below, "--format", "short"]).out;
    assert!(!said.contains("is within what is planned"), "{said}");
}

/// The pictures of an answer: every file is named, the places are those of the answer with its figures, and nothing of others is overwritten.
#[test]
fn the_pictures_say_what_the_answer_says() {
    let folder = demo();
    let readings = ["demo/readings.toml", "--draw", "found"];
    let ran = folder.run(&[&["locate", "demo/site.toml"], &readings[..]].concat());
    assert_eq!(ran.status, 0, "{}", ran.err);
    let written: Vec<&str> = ran.out.lines().filter_map(|line| line.strip_prefix("wrote ")).collect();
    assert_eq!(written, ["found/suspects.svg", "found/voltages.svg", "found/probabilities.svg"]);
    let found = json(&folder, &["demo/readings.toml", "--draw", "found"]);
    assert_eq!(found["pictures"].as_array().unwrap().len(), 3);
    let places = found["places"].as_array().unwrap();
    let percent = |place: &Value| format!("{:.0} %", 100.0 * place["probability"].as_f64().unwrap());
    let (elevation, probabilities) =
        (folder.read("found/suspects.svg"), folder.read("found/probabilities.svg"));
    for (number, place) in
        places.iter().enumerate().filter(|(_, place)| place["probability"].as_f64() > Some(0.015))
    {
        let tag = format!(">{} · {}<", number + 1, percent(place));
        assert_eq!(elevation.matches(&tag).count(), 2, "once at the place, once in the legend: {tag}");
        assert!(probabilities.contains(&format!(">{} · ", percent(place))), "{}", percent(place));
    }
    let voltages = folder.read("found/voltages.svg");
    assert!(
        voltages.contains(">43.9 V<") && voltages.contains(">47.6 V<"),
        "what was read stands at its place"
    );
    // Again is the same; what is no picture of ours stays.
    assert_eq!(folder.run(&[&["locate", "demo/site.toml"], &readings[..]].concat()).status, 0);
    assert_eq!(folder.read("found/suspects.svg"), elevation);
    folder.write("found/voltages.svg", "mine");
    folder.write("found/suspects.svg", "<svg/>");
    let refused = folder.run(&[&["locate", "demo/site.toml"], &readings[..]].concat());
    assert_eq!(refused.status, 2, "{}", refused.err);
    assert_eq!(folder.read("found/voltages.svg"), "mine");
    assert_eq!(folder.read("found/probabilities.svg"), probabilities, "none is written where one cannot be");
    // Nothing told and nothing read: there is nothing to draw but the elevation and the rates.
    let nothing = folder.run(&["locate", "demo/site.toml", "--draw", "empty"]);
    assert_eq!(nothing.status, 0, "{}", nothing.err);
}
