//! What is said where the user looks first: the reason before the swap, the reading before the purchase, what got worse, what is upside down.

use crate::common::{Folder, changed, json, words};

/// Six flats on one chain; what differs from test to test is put in for its words.
const HOUSE: &str = r#"[site]
title = "House"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
A = { floors = ["G", "1", "2", "3"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G", escape_route = false, escape_decided_by = "owner", escape_decided_on = 2026-01-02, lock = { model = "strike-12", cable = "flex-1.0", length = "6 m" } }
[dwellings]
A-1 = { place = "A/G" }
A-2 = { place = "A/1" }
A-3 = { place = "A/1" }
A-4 = { place = "A/2" }
A-5 = { place = "A/2" }
A-6 = { place = "A/3" }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "1.5 m" }
left = { from = "D1.1", to = ["A-1", "A-2", "A-3", "A-4", "A-5", "A-6"], first = "8 m", spacing = "6 m" }
door = { from = "D1.3", to = "front", length = "9 m" }
"#;

fn folder(changes: &[(&str, &str)]) -> Folder {
    let folder = Folder::new();
    folder.write("house.toml", changed(HOUSE, changes));
    folder
}

/// 40 m of 0.5 mm wire are 2 x 40 m x 0.0878 ohm/m = 7 ohm: with 0.5 A more than 3 V of 12 V are lost, so the strike does not release although
/// its door station has all the voltage that it needs.
#[test]
fn a_lock_too_far_away_is_the_reason_that_it_does_not_release() {
    let far =
        folder(&[("cable = \"flex-1.0\", length = \"6 m\"", "cable = \"pair-0.5\", length = \"40 m\"")]);
    let told = words(&far, &["locate", "house.toml", "front=no-release"]);
    assert!(
        told.starts_with("The site as drawn is reason enough: the lock strike-12 of front gets "),
        "{told}"
    );
    assert!(told.contains("Measure first: The voltage at the lock's own terminals"), "{told}");
    let document = json(&far, &["locate", "house.toml", "front=no-release"]);
    let drawn = &document["as_drawn"][0];
    assert_eq!((&drawn["finding"], &drawn["is_the_reason"]), (&"lock-voltage-too-low".into(), &true.into()));
    let near = folder(&[]);
    let told = words(&near, &["locate", "house.toml", "front=no-release"]);
    assert!(told.starts_with("As drawn the site is not the reason: front keeps "), "{told}");
}

/// A dwelling that no door calls does not ring, whatever its voltage and picture.
#[test]
fn a_dwelling_that_nobody_calls_does_not_ring() {
    let house = folder(&[("role = \"main\", ", "role = \"main\", calls = [\"A-1\", \"A-2\", \"A-3\"], ")]);
    let told = words(&house, &["locate", "house.toml", "A-6=does-not-ring"]);
    assert!(told.starts_with("The site as drawn is reason enough: no entrance calls A-6"), "{told}");
}

/// Floors are written from the lowest up; the other way round is asked about, and the site is judged all the same.
#[test]
fn floors_from_the_top_down_are_asked_about() {
    let down = folder(&[("[\"G\", \"1\", \"2\", \"3\"]", "[\"3\", \"2\", \"1\", \"G\"]")]);
    let ran = down.run(&["check", "house.toml", "--format", "short"]);
    assert!(ran.out.contains("warning[floors-upside-down]"), "{}{}", ran.out, ran.err);
    assert!(ran.status < 2 && words(&down, &["check", "house.toml"]).contains("Tightest: "), "{}", ran.out);
    let up = folder(&[]).run(&["check", "house.toml", "--format", "short"]).out;
    assert!(!up.contains("floors-upside-down"), "{up}");
}

/// A battery brings a state: its least margin is that of the page of `check`, and the others are of the states that both have.
#[test]
fn a_state_that_only_one_has_is_told_with_its_margin() {
    let house = folder(&[]);
    house.write("new.toml", changed(HOUSE, &[("ostrel-ps-120\"", "ostrel-ps-120b\"")]));
    let document = json(&house, &["compare", "house.toml", "new.toml"]);
    let state = &document["states_of_one"][0];
    assert_eq!((&state["is_new"], &state["state"]), (&true.into(), &"at the battery's end voltage".into()));
    let margin = state["margin_v"].as_f64().unwrap();
    let checked = json(&house, &["check", "new.toml"]);
    let devices = checked["devices"].as_array().unwrap();
    let worst =
        devices.iter().filter_map(|one| one["worst"]["margin_v"].as_f64()).fold(f64::INFINITY, f64::min);
    assert!((margin - worst).abs() < 0.01, "{margin} {worst}");
    let told = words(&house, &["compare", "house.toml", "new.toml"]);
    assert!(told.contains("Only the new one has this state: at the battery's end voltage."), "{told}");
    let back = words(&house, &["compare", "new.toml", "house.toml"]);
    assert!(back.contains("Only the old one had this state"), "{back}");
}

/// A loop of a tenth of what is due is impossible, where twice that was a warning: the finding is the same and matters more.
#[test]
fn a_finding_that_matters_more_is_told_as_worse() {
    let run = "first = \"8 m\", spacing = \"6 m\"";
    let measured = |ohm: &str| {
        changed(
            HOUSE,
            &[(
                run,
                &format!(
                    "{run}, existing = true, measured = {{ loop = \"{ohm} ohm\", insulation = \"20 Mohm\" }}"
                ),
            )],
        )
    };
    let house = Folder::new();
    house.write("old.toml", measured("9"));
    house.write("new.toml", measured("0.1"));
    let document = json(&house, &["compare", "old.toml", "new.toml"]);
    let graver = document["findings_graver"].as_array().unwrap();
    assert!(
        graver.iter().any(|one| one["code"] == "measured-loop-differs" && one["element"] == "left"),
        "{document}"
    );
    let told = words(&house, &["compare", "old.toml", "new.toml"]);
    assert!(told.contains("now error, was warning: the loop of run left measures"), "{told}");
}

/// 8 kohm where 38 m of 0.8 mm wire have 2.6 ohm: the reading is looked at before a metre of cable is bought.
#[test]
fn a_slip_of_the_unit_is_looked_at_before_anything_is_bought() {
    let run = "first = \"8 m\", spacing = \"6 m\"";
    let house = folder(&[(
        run,
        &format!("{run}, existing = true, measured = {{ loop = \"8 kohm\", insulation = \"20 Mohm\" }}"),
    )]);
    let told = words(&house, &["ask", "old-cable", "house.toml"]);
    assert!(
        told.starts_with("Not before this is looked into, on left: the loop of run left measures 8000 ohm"),
        "{told}"
    );
    let told = words(&house, &["check", "house.toml"]);
    let job = told.split(" J1 ").nth(1).unwrap_or_else(|| panic!("{told}"));
    let look = job.find("slip of the unit (kilohm for ohm)").unwrap_or_else(|| panic!("{told}"));
    assert!(look < job.find("if that is not it, ").unwrap_or(usize::MAX), "{told}");
}

/// A run whose length follows from its loop can be split over two ports: what is left of it gets its lengths.
#[test]
fn a_run_known_by_its_loop_can_be_split() {
    let names: Vec<String> = (1..=17).map(|number| format!("\"A-{number}\"")).collect();
    let more: String = (7..=17).map(|number| format!("A-{number} = {{ place = \"A/3\" }}\n")).collect();
    let house = folder(&[
        ("[runs]\n", &format!("{more}[runs]\n")),
        (
            "to = [\"A-1\", \"A-2\", \"A-3\", \"A-4\", \"A-5\", \"A-6\"], first = \"8 m\", spacing = \"6 m\"",
            &format!(
                "to = [{}], existing = true, measured = {{ loop = \"6 ohm\", insulation = \"20 Mohm\" }}",
                names.join(", ")
            ),
        ),
    ]);
    let ran = house.run(&["fix", "house.toml", "--job", "too-many-stations-on-port:D1.1", "--write"]);
    assert!(ran.out.contains("runs.left.lengths"), "{}{}", ran.out, ran.err);
    let after = house.run(&["check", "house.toml", "--format", "short"]);
    assert!(after.status == 0 && !after.out.contains("too-many-stations"), "{}{}", after.out, after.err);
}

/// A name of nobody decides nothing.
#[test]
fn an_escape_decision_of_nobody_is_none() {
    let house = folder(&[("escape_decided_by = \"owner\"", "escape_decided_by = \" \"")]);
    let document = json(&house, &["check", "house.toml"]);
    assert_eq!(document["verdict"], "not-judged", "{document}");
    assert!(words(&house, &["check", "house.toml"]).contains("escape_decided_by"), "{document}");
}

/// Files that plainly are no site are told for what they are, whatever parts a catalogue has.
#[test]
fn catalogues_of_any_part_and_drawings_are_recognised() {
    let house = folder(&[]);
    house.write("parts.toml", "[supplies.one]\ntitle = \"One\"\n");
    house.write("rates.toml", "currency = \"GBP\"\n[rates]\nEUR = 0.86\n");
    assert_eq!(house.run(&["draw", "house.toml", "-o", "house.dxf"]).status, 0);
    for (file, kind) in [
        ("parts.toml", "it is a catalogue"),
        ("rates.toml", "it is a catalogue"),
        ("house.dxf", "it is a drawing"),
    ] {
        let ran = house.run(&["check", file]);
        assert!(ran.status == 2 && ran.err.contains(kind), "{file}: {}{}", ran.out, ran.err);
    }
}

/// Without a rate a price of another currency is left out, and where prices are looked for that is said: in the catalogue and on the parts list,
/// which then has no total.
#[test]
fn prices_of_another_currency_are_left_out_in_words() {
    let house = folder(&[("cable = \"pair-0.8\"\n", "cable = \"pair-0.8\"\ncatalogues = [\"own.toml\"]\n")]);
    house.write("own.toml", "currency = \"GBP\"\n");
    let catalogue = words(&house, &["catalogue", "--catalogue", "own.toml"]);
    assert!(
        catalogue.contains("a price in EUR and none in GBP: it is left out here and in every sum"),
        "{catalogue}"
    );
    assert_eq!(house.run(&["pack", "house.toml", "-o", "pack"]).status, 0);
    let parts = house.read("pack/tables/09-parts.csv");
    assert!(parts.contains("price in EUR and none in GBP") && !parts.contains("0.00 GBP"), "{parts}");
    assert!(!parts.contains("# Total"), "{parts}");
}

/// Two runs at an output that is stated to take two are no surprise; at any other terminal a connector is asked for.
#[test]
fn a_terminal_that_is_stated_to_take_two_takes_two() {
    let second = "second = { from = \"PS\", to = \"D2\", cable = \"flex-1.5\", length = \"2 m\" }\n";
    let house = folder(&[
        ("model = \"ostrel-ps-120\"", "model = \"ps-two\""),
        (
            "D1 = { model = \"ostrel-d4\", place = \"A/G\" }",
            "D1 = { model = \"ostrel-d4\", place = \"A/G\" }\nD2 = { model = \"ostrel-d4\", place = \"A/G\" }",
        ),
        ("cable = \"pair-0.8\"\n", "cable = \"pair-0.8\"\ncatalogues = [\"own.toml\"]\n"),
        ("[runs]\n", &format!("[runs]\n{second}")),
        ("door = { from = \"D1.3\"", "door = { from = \"D2.1\""),
    ]);
    let supply = |takes: &str| {
        format!(
            "[supplies.ps-two]\ntitle = \"Two\"\nfamily = \"ostrel-48\"\nvoltage = \"48 V\"\nvoltage_tolerance = \"2 %\"\nsource = \"test\"\nsource_resistance = \"0.2 ohm\"\nrated_current = \"2.5 A\"\nlimit_current = \"3 A\"\nlimit_kind = \"constant-current\"\noutputs = 1\n{takes}"
        )
    };
    let remark = |takes: &str| -> String {
        house.write("own.toml", supply(takes));
        let ran = house.run(&["pack", "house.toml", "-o", "pack"]);
        assert!(ran.status < 2, "{}{}", ran.out, ran.err);
        let table = house.read("pack/tables/05-wiring.csv");
        table
            .lines()
            .filter(|line| line.starts_with("PS,") && line.contains("wires in this terminal"))
            .collect()
    };
    assert!(remark("runs_per_output = 2\n").contains("no more than it is stated to take"));
    assert!(remark("").contains("use a terminal made for that many"));
}

/// The page says watts rounded up; so does the sheet, and the hours stand in the document as on the page.
#[test]
fn the_sheet_says_the_power_of_the_page() {
    let house = folder(&[("ostrel-ps-120\"", "ostrel-ps-120b\"")]);
    let page = words(&house, &["check", "house.toml"]);
    let power = page.split("at most ").nth(1).unwrap().split(' ').next().unwrap().to_string();
    let sheet = words(&house, &["check", "house.toml", "--supply", "PS"]);
    assert!(sheet.contains(&format!("Load {power} W")), "{power}: {sheet}");
    let document = json(&house, &["check", "house.toml"]);
    let hours = document["sources"][0]["battery_hours"].as_f64().unwrap();
    let shown: f64 =
        page.split("an old battery lasts ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    assert!(hours - shown < 0.1 && shown <= hours, "{hours} {shown}");
}
