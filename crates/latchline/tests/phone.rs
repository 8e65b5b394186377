//! `phone` and `readings` as whole programs: the page's steps are the sheets' rows, and what comes back is judged by them.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

use crate::common::Folder;
use serde_json::{Value, json};

fn demo() -> (Folder, Value) {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    let ran = folder.run(&["phone", "demo/site.toml", "-o", "house.html"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let plan = plan(&folder.read("house.html"));
    (folder, plan)
}

fn plan(page: &str) -> Value {
    let data = page.split("id=\"plan\">").nth(1).unwrap().split("</script>").next().unwrap();
    serde_json::from_str(data).unwrap()
}

fn steps(plan: &Value) -> Vec<&Value> {
    plan["stages"].as_array().unwrap().iter().flat_map(|stage| stage["steps"].as_array().unwrap()).collect()
}

fn step<'p>(plan: &'p Value, key: &str) -> &'p Value {
    steps(plan).into_iter().find(|step| step["key"] == key).unwrap()
}

fn entry(plan: &Value, number: u32, key: &str, value: Value) -> Value {
    let step = step(plan, key);
    json!({
        "id": format!("01890a5d-ac96-774b-bcce-{number:012x}"), "device": "01890a5d-ac96-774b-bcce-b302099a8057",
        "sequence": number, "plan": plan["plan"], "revision": plan["revision"], "at": 1.7e12, "by": "Kim",
        "kind": "reading", "step": key, "place": step["place"], "value": value, "unit": step["unit"], "text": "",
    })
}

fn file(plan: &Value, events: &[Value]) -> String {
    json!({"format": "latchline-readings", "version": 1, "site": plan["site"], "events": events}).to_string()
}

/// The pack's commissioning sheets and the page say the same: number, place, words and the three figures of every step.
#[test]
fn the_page_asks_and_expects_what_the_sheets_print() {
    let (folder, plan) = demo();
    let ran = folder.run(&["pack", "demo/site.toml", "-o", "pack", "--only", "before-power,live"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let mut rows = Vec::new();
    for name in ["pack/tables/16-before-power.csv", "pack/tables/17-live.csv"] {
        let text = folder.read(name);
        let table: String = text
            .trim_start_matches('\u{feff}')
            .lines()
            .filter(|line| !line.starts_with("# "))
            .map(|line| format!("{line}\n"))
            .collect();
        rows.extend(csv_rows(&table));
    }
    // Steps that share a row of a sheet, first number to last, are steps of their own on the page.
    let mut sheets: Vec<Vec<String>> = Vec::new();
    for row in &rows {
        let (first, last) = row[0].split_once('–').unwrap_or((&row[0], &row[0]));
        let (Ok(first), Ok(last)) = (first.parse::<usize>(), last.parse::<usize>()) else { continue };
        let places: Vec<&str> = if first == last { vec![&row[1]] } else { row[1].split(", ").collect() };
        assert_eq!(places.len(), last + 1 - first, "{row:?}");
        for (number, place) in (first..=last).zip(places) {
            let mut one = row.clone();
            (one[0], one[1]) = (number.to_string(), place.to_string());
            sheets.push(one);
        }
    }
    let steps = steps(&plan);
    assert_eq!(sheets.len(), steps.len());
    assert!(steps.len() > 600);
    for (row, step) in sheets.iter().zip(steps) {
        let place = step["place"].as_str().unwrap();
        let what = plan["texts"][step["what"].as_u64().unwrap() as usize].as_str().unwrap();
        assert_eq!((row[0].as_str(), row[2].as_str()), (step["number"].to_string().as_str(), what));
        assert_eq!(row[1].trim_start_matches('\''), place);
        for (column, key) in [(4, "nominal"), (5, "lowest"), (6, "highest")] {
            let printed: Option<f64> = row[column].split(' ').next().unwrap().parse().ok();
            assert_eq!(printed, step[key].as_f64(), "{what} at {place}: {key}");
        }
    }
}

/// Rows of RFC 4180.
fn csv_rows(text: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut quoted = false;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        let row = rows.last_mut().unwrap();
        match sign {
            '"' if quoted && signs.peek() == Some(&'"') => {
                signs.next();
                row.last_mut().unwrap().push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\n' if !quoted => rows.push(vec![String::new()]),
            '\r' => {}
            sign => row.last_mut().unwrap().push(sign),
        }
    }
    rows.retain(|row| row.len() > 6);
    rows
}

#[test]
fn the_page_holds_no_address_and_allows_nothing_but_itself() {
    let (folder, _) = demo();
    let page = folder.read("house.html");
    // The one address is the name of a namespace.
    let rest = page.replace("http://www.w3.org/2000/svg", "");
    assert!(!rest.contains("http://") && !rest.contains("https://") && !rest.contains("src=\"//"));
    assert!(page.contains("default-src 'none'") && !page.contains("unsafe"));
    assert!(page.len() < 1_000_000);
    let again = folder.run(&["phone", "demo/site.toml", "-o", "house.html"]);
    assert_eq!((again.status, page == folder.read("house.html")), (0, true), "{}", again.err);
    folder.write("mine.html", "<p>mine</p>");
    assert_eq!(folder.run(&["phone", "demo/site.toml", "-o", "mine.html"]).status, 2);
    assert_eq!(folder.read("mine.html"), "<p>mine</p>");
}

/// A title is the user's own text: it ends no element of the page.
#[test]
fn a_title_cannot_break_out_of_the_page() {
    let (folder, _) = demo();
    folder.edit(
        "demo/site.toml",
        "title = \"Quillmere Yard\"",
        "title = \"</script><script>alert(1)</script><!--\"",
    );
    assert_eq!(folder.run(&["phone", "demo/site.toml", "-o", "other.html"]).status, 0);
    let page = folder.read("other.html");
    assert_eq!(page.matches("</script>").count(), 3);
    assert!(!page.contains("<!--"));
    assert_eq!(plan(&page)["site"], "</script><script>alert(1)</script><!--");
}

#[test]
fn readings_come_back_judged_and_go_on_to_locate() {
    let (folder, plan) = demo();
    let high = step(&plan, "stations/A-02/1")["highest"].as_f64().unwrap();
    let mut other = entry(&plan, 4, "stations/A-01/1", json!(46.8));
    other["device"] = json!("01890a5d-ac96-774b-bcce-b302099a8058");
    other["by"] = json!("Robin");
    let kim = [
        entry(&plan, 1, "stations/A-01/1", json!(47.6)),
        entry(&plan, 2, "stations/A-02/1", json!(high + 1.0)),
        entry(&plan, 3, "stations/A-03/1", step(&plan, "stations/A-03/1")["nominal"].clone()),
        entry(&plan, 5, "bare-ends/A-R1/1", Value::Null),
        entry(&plan, 6, "bare-ends/A-R1/2", json!(20.0)),
        entry(&plan, 7, "bare-ends/A-R1/3", step(&plan, "bare-ends/A-R1/3")["nominal"].clone()),
    ];
    folder.write("kim.json", file(&plan, &kim));
    folder.write("robin.json", file(&plan, &[other]));
    let arguments = [
        "readings",
        "demo/site.toml",
        "kim.json",
        "robin.json",
        "kim.json",
        "-o",
        "back.toml",
        "--merged",
        "all.json",
    ];
    // Two results in one file, by two names: nothing is written, whatever is forced.
    let one_file =
        ["readings", "demo/site.toml", "kim.json", "-o", "back.toml", "--merged", "./back.toml", "--force"];
    let refused = folder.run(&one_file);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("two results would be written into"), "{}", refused.err);
    assert!(!folder.path("back.toml").exists());
    let ran = folder.run(&arguments);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(
        ran.out.contains("Out of range (2):") && ran.out.contains("A-02") && ran.out.contains("open"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("47.60 V (Kim) and 46.80 V (Robin)"), "{}", ran.out);
    let located = folder.run(&["locate", "demo/site.toml", "back.toml", "--format", "json"]);
    assert_eq!(located.status, 0, "{}{}", located.err, folder.read("back.toml"));
    let merged: Value = serde_json::from_str(&folder.read("all.json")).unwrap();
    assert_eq!((merged["events"].as_array().unwrap().len(), merged["from"].as_str()), (7, Some("laptop")));
    let ran = folder.run(&["readings", "demo/site.toml", "all.json", "--format", "json"]);
    // What phones told is no result: it cannot be made again from the site.
    let refused = folder.run(&["check", "demo/site.toml", "--format", "json", "--output", "all.json"]);
    assert_eq!(refused.status, 2, "{}", refused.out);
    assert!(refused.err.contains("is no result that can be made again"), "{}", refused.err);
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(document["conflicts"][0]["entries"].as_array().unwrap().len(), 2);
    assert_eq!(document["readings"].as_array().unwrap().len(), 5);
    let sides: Vec<&str> =
        document["readings"].as_array().unwrap().iter().map(|one| one["judged"].as_str().unwrap()).collect();
    assert_eq!(sides, ["high", "in", "in", "high", "in"]);
}

/// Every kind of reading that the page asks for and fault finding knows is taken by `locate` as it is written: all of one run
/// with its last station, and a supply. (All of the site's some 240 at once keep `locate` busy for minutes.)
#[test]
fn locate_takes_every_kind_of_reading_that_is_written_for_it() {
    let (folder, plan) = demo();
    let places = ["A-R1", "A-D2:2", "A-15", "A-PS"];
    let all: Vec<Value> = steps(&plan)
        .into_iter()
        .filter(|step| step["kind"] == "read" && step["nominal"].is_number())
        .filter(|step| places.contains(&step["place"].as_str().unwrap()))
        .zip(1..)
        .map(|(step, number)| entry(&plan, number, step["key"].as_str().unwrap(), step["nominal"].clone()))
        .collect();
    folder.write("all.json", file(&plan, &all));
    let ran = folder.run(&["readings", "demo/site.toml", "all.json", "-o", "back.toml"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(!ran.out.contains("Out of range"), "{}", ran.out);
    let written = folder.read("back.toml");
    for quantity in ["loop", "capacitance", "current", "drop"] {
        assert!(written.contains(&format!("quantity = \"{quantity}\"")), "{quantity}: {written}");
    }
    assert!(written.contains("state = \"talking"), "{written}");
    let located = folder.run(&["locate", "demo/site.toml", "back.toml", "--format", "short"]);
    assert_eq!((located.status, located.err.as_str()), (0, ""));
}

#[test]
fn files_that_cannot_be_used_are_told_and_the_others_taken() {
    let (folder, plan) = demo();
    let good = file(&plan, &[entry(&plan, 1, "stations/A-01/1", json!(47.6))]);
    folder.write("good.json", &good);
    folder.write("half.json", &good[..good.len() / 2]);
    folder.write("other.json", good.replace("Quillmere Yard", "Mill Lane"));
    folder.write("kind.json", "[1, 2]");
    let mut changed = entry(&plan, 1, "stations/A-01/1", json!(12.0));
    changed["text"] = json!("12 V\u{1b}[31m");
    folder.write("changed.json", file(&plan, &[changed]));
    let ran = folder.run(&[
        "readings",
        "demo/site.toml",
        "good.json",
        "half.json",
        "other.json",
        "kind.json",
        "changed.json",
    ]);
    assert_eq!(ran.status, 1);
    for told in [
        "half.json\" is not taken: it is cut off",
        "of the site \"Mill Lane\"",
        "no file of readings",
        "the earlier one is kept",
    ] {
        assert!(ran.err.contains(told), "{told}: {}", ran.err);
    }
    assert!(!ran.err.contains('\u{1b}') && ran.out.contains("1 of "), "{}{}", ran.err, ran.out);
    assert_eq!(folder.run(&["readings", "demo/site.toml", "half.json", "kind.json"]).status, 2);
    assert_eq!(folder.run(&["readings", "demo/site.toml", "none.json"]).status, 2);
}

/// Readings of another revision are kept and said, not judged.
#[test]
fn readings_of_another_revision_are_said() {
    let (folder, plan) = demo();
    folder.write("kim.json", file(&plan, &[entry(&plan, 1, "stations/A-01/1", json!(47.6))]));
    let text = folder.read("demo/site.toml");
    folder.write("demo/site.toml", format!("{text}\n# changed since\n"));
    let ran = folder.run(&["readings", "demo/site.toml", "kim.json"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("Not of this plan, not judged (1):") && ran.out.contains("A-01"), "{}", ran.out);
}

/// What was measured becomes what is built: nothing is written without `--write`; then the page expects what was read (the loop of a
/// run that was measured is what was measured), comments stay, and entries of the old revision are not taken again.
#[test]
fn what_was_measured_becomes_what_is_built() {
    let (folder, plan) = demo();
    let find = |plan: &Value, place: &str, unit: &str| {
        let found = steps(plan).into_iter().find(|step| step["place"] == place && step["unit"] == unit);
        found.unwrap()["key"].as_str().unwrap().to_string()
    };
    let loop_key = find(&plan, "A-gate", "ohm");
    let expected = step(&plan, &loop_key)["highest"].as_f64().unwrap();
    assert!(expected < 5.1, "{expected}");
    let nominal = step(&plan, &find(&plan, "A-R1", "ohm"))["nominal"].clone();
    let entries = [
        entry(&plan, 1, &loop_key, json!(5.1)),
        entry(&plan, 2, &find(&plan, "A-R1", "ohm"), nominal),
        entry(&plan, 3, &find(&plan, "A-PS", "V"), json!(48.9)),
        entry(&plan, 4, "stations/A-01/1", json!(41.0)),
    ];
    folder.write("kim.json", file(&plan, &entries));
    let before = folder.read("demo/site.toml");
    let ran = folder.run(&["as-built", "demo/site.toml", "kim.json"]);
    assert_eq!((ran.status, folder.read("demo/site.toml") == before), (0, true), "{}{}", ran.out, ran.err);
    assert!(
        ran.out.contains("1 reading corrects the site file") && ran.out.contains("--write"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("runs.A-gate.measured.loop = \"5.1 ohm\""), "{}", ran.out);
    // A station's voltage tells of a fault, not of a key.
    assert!(ran.out.contains("latchline locate (1)") && ran.out.contains("A-01"), "{}", ran.out);
    let every = folder.run(&["as-built", "demo/site.toml", "kim.json", "--every"]);
    assert!(
        every.out.contains("3 readings correct")
            && every.out.contains("supplies.A-PS.set_voltage = \"48.9 V\""),
        "{}",
        every.out
    );
    let german = folder.run(&["as-built", "demo/site.toml", "kim.json", "--language", "de"]);
    assert!(
        german.out.contains("1 Messwert berichtigt die Anlagendatei")
            && german.out.contains("Nichts wurde geschrieben"),
        "{}",
        german.out
    );

    let ran = folder.run(&["as-built", "demo/site.toml", "kim.json", "--write"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    let after = folder.read("demo/site.toml");
    let kept = before.lines().filter(|line| !after.lines().any(|other| other == *line)).count();
    assert!(after.contains("loop = \"5.1 ohm\"") && kept <= 1, "{kept} lines are gone");
    assert_eq!(folder.run(&["phone", "demo/site.toml", "-o", "house.html"]).status, 0);
    let built = self::plan(&folder.read("house.html"));
    let now = step(&built, &loop_key);
    assert_eq!(now["nominal"].as_f64(), Some(5.1));
    assert!(now["lowest"].as_f64().unwrap() <= 5.1 && now["highest"].as_f64().unwrap() >= 5.1);
    let again = folder.run(&["as-built", "demo/site.toml", "kim.json", "--write"]);
    assert!(again.out.contains("another revision of the plan: 4 readings"), "{}", again.out);
    assert_eq!(folder.read("demo/site.toml"), after);
}

/// Two values of one thing, and values that no key takes, are said and not written.
#[test]
fn what_was_read_differently_is_not_what_is_built() {
    let (folder, plan) = demo();
    let place = |one: &&Value| one["place"] == "A-gate" && one["unit"] == "ohm";
    let key = steps(&plan).into_iter().find(place).unwrap()["key"].as_str().unwrap();
    let other = {
        let mut other = entry(&plan, 2, key, json!(6.1));
        other["device"] = json!("01890a5d-ac96-774b-bcce-b302099a8058");
        other
    };
    folder.write("both.json", file(&plan, &[entry(&plan, 1, key, json!(5.1)), other]));
    let ran = folder.run(&["as-built", "demo/site.toml", "both.json", "--write"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("two phones read differently: 1 step"), "{}", ran.out);
    // A loop that is open has no value.
    folder.write("open.json", file(&plan, &[entry(&plan, 1, key, Value::Null)]));
    let ran = folder.run(&["as-built", "demo/site.toml", "open.json"]);
    assert!(ran.out.contains("no reading corrects the site file") && ran.out.contains("open"), "{}", ran.out);
    folder.write("none.json", "[]");
    assert_eq!(folder.run(&["as-built", "demo/site.toml", "none.json"]).status, 2);
    assert_eq!(folder.run(&["as-built", "demo/site.toml"]).status, 2);
}
