//! Over random sites: every dwelling, device, port and run stands in each schedule exactly once.

mod designations;
mod door_wiring;
mod fault_sheet;
mod fitted;
mod interfaces;
mod job_cards;
mod on_paper;
mod on_site;
mod other_trades;
mod own_leads;
mod own_supply;
mod parts_list;
mod revisions;
mod said_above;
mod same_name;
mod two_ends;

use latchline_assess::{Assessment, Readings, assess, predicted_readings};
use latchline_cutting::{CableCuts, cut_list};
use latchline_finding::{Language, Locale, Sources, Units};
use latchline_handover::{
    Audience, Cell, Options, PackFile, PackInput, Part, Row, Stamp, Subject, Table, tables,
};
use latchline_locate::FaultTable;
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// A site file from a few random choices: floors, flats on each, how each floor is wired.
fn site_text(floors: &[(u8, u8)], names: &str, entrances: u8) -> String {
    let mut boxes = String::from("D0 = { model = \"ostrel-d8t\", place = \"A/0\" }\n");
    let mut branches = String::new();
    let mut runs =
        String::from("feed = { from = \"PS\", to = \"D0\", cable = \"flex-1.5\", length = \"1.5 m\" }\n");
    let mut dwellings = String::new();
    let floor_names: Vec<String> = (0..floors.len()).map(|floor| format!("\"{floor}\"")).collect();
    let (mut head, mut port) = (String::from("D0"), 1);
    let mut flat = 0;
    let mut next_port = |boxes: &mut String, runs: &mut String, floor: usize| {
        // The last port of a box leads to the next box.
        if port == 4 {
            let name = format!("D{}", boxes.lines().count());
            boxes.push_str(&format!("{name} = {{ model = \"ostrel-d8t\", place = \"A/{floor}\" }}\n"));
            runs.push_str(&format!(
                "to-{name} = {{ from = \"{head}.6\", to = \"{name}\", length = \"4 m\" }}\n"
            ));
            (head, port) = (name, 1);
        }
        port += 1;
        format!("{head}.{}", port - 1)
    };
    let mut doors = String::new();
    for door in 0..entrances {
        let role = if door == 0 { "main" } else { "secondary" };
        doors.push_str(&format!(
            "\"E{door}\" = {{ role = \"{role}\", place = \"A/0\", outdoors = true, lock = {{ model = \"strike-12\", cable = \"flex-1.0\", length = \"5 m\" }} }}\n"
        ));
        let from = next_port(&mut boxes, &mut runs, 0);
        runs.push_str(&format!("W-E{door} = {{ from = \"{from}\", to = \"E{door}\", length = \"12 m\" }}\n"));
    }
    for (floor, (flats, wiring)) in floors.iter().enumerate() {
        let mut here = Vec::new();
        for _ in 0..*flats {
            flat += 1;
            let name = format!("{names}{flat}");
            let more = if flat % 5 == 0 { ", extensions = [\"ostrel-v4\"]" } else { "" };
            dwellings.push_str(&format!("{name:?} = {{ place = \"A/{floor}\"{more} }}\n"));
            here.push(name.clone());
            if flat % 5 == 0 {
                here.push(format!("{name}:2"));
            }
        }
        let list =
            |part: &[String]| part.iter().map(|name| format!("{name:?}")).collect::<Vec<_>>().join(", ");
        let from = next_port(&mut boxes, &mut runs, floor);
        match wiring % 3 {
            0 => runs.push_str(&format!(
                "W{floor} = {{ from = \"{from}\", to = [{}], first = \"6 m\", spacing = \"7 m\", pairs = 2 }}\n",
                list(&here)
            )),
            1 => {
                branches.push_str(&format!("T{floor} = {{ model = \"ostrel-t4\", place = \"A/{floor}\" }}\n"));
                runs.push_str(&format!("W{floor} = {{ from = \"{from}\", to = \"T{floor}\", length = \"3 m\" }}\n"));
                for (number, part) in here.chunks(here.len().div_ceil(2)).enumerate() {
                    runs.push_str(&format!(
                        "W{floor}-{number} = {{ from = \"T{floor}.{}\", to = [{}], first = \"5 m\", spacing = \"6 m\", existing = true }}\n",
                        number + 1,
                        list(part)
                    ));
                }
            }
            _ => {
                let (first, rest) = here.split_at(1);
                runs.push_str(&format!("W{floor} = {{ from = \"{from}\", to = [{}], length = \"9 m\" }}\n", list(first)));
                if !rest.is_empty() {
                    runs.push_str(&format!(
                        "W{floor}-on = {{ from = {:?}, to = [{}], first = \"4 m\", spacing = \"5 m\" }}\n",
                        first[0],
                        list(rest)
                    ));
                }
            }
        }
    }
    format!(
        "[site]\ntitle = \"Random\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
         [buildings]\nA = {{ floors = [{}] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120b\", place = \"A/0\" }}\n\
         [distributors]\n{boxes}[branch-boxes]\n{branches}[entrances]\n{doors}[dwellings]\n{dwellings}[runs]\n{runs}",
        floor_names.join(", ")
    )
}

pub(crate) fn resolved(text: &str) -> Site {
    let mut sources = Sources::new();
    let file = sources.add("site.toml", text);
    let (name, builtin) = builtin_catalogue();
    let catalogue = sources.add(name, builtin);
    let resolved = resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:?}\n{text}", resolved.findings))
}

/// What a pack of a site is made from.
pub(crate) struct Made {
    site: Site,
    assessment: Assessment,
    readings: Readings,
    cut_list: Vec<CableCuts>,
    faults: FaultTable,
}

impl Made {
    pub(crate) fn of(site: Site) -> Self {
        let assessment = assess(&site);
        let readings = predicted_readings(&site, &assessment);
        let cut_list = cut_list(&site);
        let faults = FaultTable::of_site(&site, &readings);
        Made { site, assessment, readings, cut_list, faults }
    }

    pub(crate) fn input(&self) -> PackInput<'_> {
        let Made { site, assessment, readings, cut_list, faults } = self;
        PackInput { site, assessment, readings, cut_list, reading_findings: &[], faults: Some(faults) }
    }
}

pub(crate) fn stamp() -> Stamp {
    Stamp::of_texts(["x"], None, None)
}

/// How often each text stands in a column.
fn column(table: &Table, column: usize) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for cells in table.body() {
        *counts.entry(cells[column].words().to_string()).or_default() += 1;
    }
    counts
}

fn names<'n>(names: impl Iterator<Item = &'n latchline_finding::ElementId>) -> BTreeMap<String, usize> {
    names.map(|name| (name.to_string(), 1)).collect()
}

fn check(site: Site) {
    let made = Made::of(site);
    let site = &made.site;
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    let tables = tables::tables(&subject);
    let table = |part: Part| tables.iter().find(|table| table.part == part).expect("the part is there");

    let mut devices = names(site.supplies.iter().map(|supply| &supply.id));
    devices.extend(names(site.boxes.iter().map(|item| &item.id)));
    devices.extend(names(site.stations.iter().map(|station| &station.id)));
    assert_eq!(column(table(Part::Devices), 1), devices, "device schedule");

    let mut called = names(site.dwellings.iter().map(|dwelling| &dwelling.id));
    called.extend(names(site.management.iter().map(|management| &management.id)));
    assert_eq!(column(table(Part::Calls), 0), called, "who calls whom");

    // Every section of every run once, in the order of the run.
    let sections: Vec<(String, usize)> =
        site.runs.iter().map(|run| (run.id.to_string(), run.sections.len())).collect();
    let mut listed = column(table(Part::Cables), 1);
    listed.remove("");
    assert_eq!(listed, sections.iter().cloned().collect(), "cable list");
    assert!(column(table(Part::Cables), 0).values().all(|count| *count == 1));

    // Every port of every box once in each leg, free or with what is wired to it.
    let mut terminals: BTreeMap<(String, String, String), usize> = BTreeMap::new();
    let mut ends: BTreeMap<(String, String), usize> = BTreeMap::new();
    for cells in table(Part::Wiring).body() {
        let word = |index: usize| cells[index].words().to_string();
        *terminals.entry((word(0), word(1), word(2))).or_default() += 1;
        // Short wires and the leads of parts have no type; conductors in the walls no colour yet.
        if !word(4).is_empty() && cells[5] != Cell::Empty {
            let conductor = if word(6).is_empty() { word(2) } else { word(6) };
            *ends.entry((word(3), format!("{conductor}{:?}", cells[5]))).or_default() += 1;
        }
    }
    for item in &site.boxes {
        for port in 1..=site.box_model(item).ports.value {
            for leg in ["+", "−"] {
                let key = (item.id.to_string(), port.to_string(), leg.to_string());
                let pairs = site
                    .runs
                    .iter()
                    .find(|run| site.start_id(run.from).as_str() == format!("{}.{port}", item.id));
                let wanted = pairs.map_or(1, |run| run.pairs.value as usize);
                assert_eq!(terminals.get(&key), Some(&wanted), "port {key:?}");
            }
        }
    }
    for name in devices.keys() {
        assert!(terminals.keys().any(|(device, ..)| device == name), "{name} in the wiring schedule");
    }
    // Each conductor of each cable has two ends.
    assert!(ends.values().all(|count| *count == 2), "{ends:?}");

    // Each length to be bought is cut once.
    let cuts = column(table(Part::CutList), 3);
    assert!(cuts.values().all(|count| *count == 1));
    let new: usize = site.runs.iter().filter(|run| !run.existing.value).map(|run| run.sections.len()).sum();
    assert_eq!(cuts.len(), new + site.entrances.len());

    // Each run is measured before power and connected once; each voltage is expected once.
    let whole = |part: Part, starts: &str, column: usize| {
        let rows = table(part).body().filter(|cells| cells[2].words().starts_with(starts));
        let mut counts: BTreeMap<String, usize> = BTreeMap::new();
        rows.for_each(|cells| *counts.entry(cells[column].words().to_string()).or_default() += 1);
        counts
    };
    let runs = names(site.runs.iter().map(|run| &run.id));
    assert_eq!(whole(Part::BeforePower, "Loop resistance from", 1), runs, "loop readings");
    let connected = whole(Part::Live, "Connect run", 2);
    assert_eq!(connected.len(), runs.len());
    assert!(connected.values().all(|count| *count == 1));
    let stations = names(site.stations.iter().map(|station| &station.id));
    // A station at the end of a run is read there, the others by themselves: each once.
    let mut read = whole(Part::Live, "Voltage at the terminals", 1);
    for (place, count) in whole(Part::Live, "Voltage at the end", 1) {
        if stations.contains_key(&place) {
            *read.entry(place).or_default() += count;
        }
    }
    assert_eq!(read, stations, "station readings");
    assert!(column(table(Part::Voltages), 0).values().all(|count| *count == 1));
    let listed = column(table(Part::InHand), 1);
    assert!(runs.keys().all(|run| listed.get(run) == Some(&1)), "runs in hand");

    said_above::check(&tables);
    check_people(site, &tables);
    check_steps(site, &subject, &tables);
    check_labels(&subject);

    // Predictions lie within their own ranges.
    for part in [Part::BeforePower, Part::Live] {
        for cells in table(part).body() {
            if let (Some(nominal), Some(low), Some(high)) =
                (cells[3].number(), cells[4].number(), cells[5].number())
            {
                assert!(low - 0.011 <= nominal && nominal <= high + 0.011, "{cells:?}");
            }
        }
    }
}

/// How often each text stands in a column of the rows whose other column starts like this.
fn column_where(table: &Table, column: usize, other: usize, starts: &str) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for cells in table.body().filter(|cells| cells[other].words().starts_with(starts)) {
        *counts.entry(cells[column].words().to_string()).or_default() += 1;
    }
    counts
}

fn part(tables: &[Table], part: Part) -> &Table {
    tables.iter().find(|table| table.part == part).expect("the part is there")
}

/// Panels, doors, supplies, parts, the handover record: what people ask for.
fn check_people(site: &Site, tables: &[Table]) {
    let mut listed: BTreeMap<(String, String), usize> = BTreeMap::new();
    for cells in part(tables, Part::Names).body() {
        *listed.entry((cells[0].words().to_string(), cells[3].words().to_string())).or_default() += 1;
    }
    let mut callable: BTreeMap<(String, String), usize> = BTreeMap::new();
    for entrance in &site.entrances {
        let panel = entrance.id.to_string();
        for dwelling in &entrance.calls.dwellings {
            callable.insert((panel.clone(), site.dwellings[*dwelling].id.to_string()), 1);
        }
        for desk in &entrance.calls.management {
            callable.insert((panel.clone(), site.management[*desk].id.to_string()), 1);
        }
    }
    assert_eq!(listed, callable, "name lists");

    let entrances = names(site.entrances.iter().map(|entrance| &entrance.id));
    assert_eq!(column_where(part(tables, Part::Doors), 0, 2, "Door station"), entrances, "door sheets");
    let mut locks: BTreeMap<(String, String), usize> = BTreeMap::new();
    for cells in part(tables, Part::Doors).body().filter(|cells| cells[2].words() == "Model") {
        *locks.entry((cells[0].words().to_string(), cells[1].words().to_string())).or_default() += 1;
    }
    assert_eq!(locks.len(), site.entrances.iter().map(|entrance| entrance.locks.len()).sum::<usize>());
    assert!(locks.values().all(|count| *count == 1), "locks: {locks:?}");
    let supplies = names(site.supplies.iter().map(|supply| &supply.id));
    assert_eq!(column_where(part(tables, Part::Supplies), 0, 1, "Model"), supplies, "supply sheets");

    let mut stations: BTreeMap<String, f64> = BTreeMap::new();
    for station in &site.stations {
        *stations.entry(site.station_model(station).head.name.clone()).or_default() += 1.0;
    }
    let parts = part(tables, Part::Parts);
    for (model, count) in &stations {
        let rows: Vec<&[Cell]> = parts.body().filter(|cells| cells[1].words() == model).collect();
        assert_eq!(rows.len(), 1, "{model} in the parts list");
        assert_eq!(rows[0][3].number(), Some(*count), "{model} needed");
    }
    for name in entrances.keys() {
        let agreed = part(tables, Part::Handover).body().filter(|cells| {
            cells[1].words().strip_prefix(name.as_str()).is_some_and(|rest| rest.starts_with(':'))
        });
        assert_eq!(agreed.count(), 1, "{name} in the handover record");
    }
}

/// The steps of commissioning, the readings at every terminal and the snags.
fn check_steps(site: &Site, subject: &Subject<'_>, tables: &[Table]) {
    let before = part(tables, Part::BeforePower);
    // Devices at which the same is done share a row.
    let mut mounted: BTreeMap<String, usize> = BTreeMap::new();
    for (places, count) in column_where(before, 1, 2, "Terminate") {
        for place in places.split(", ") {
            *mounted.entry(place.to_string()).or_default() += count;
        }
    }
    let mut devices = names(site.supplies.iter().map(|supply| &supply.id));
    devices.extend(names(site.boxes.iter().map(|item| &item.id)));
    devices.extend(names(site.stations.iter().map(|station| &station.id)));
    assert_eq!(mounted, devices, "devices mounted");
    let mut laid = column_where(before, 1, 2, "Pull from");
    let found = column_where(before, 1, 2, "In place already");
    assert!(found.keys().all(|cable| !laid.contains_key(cable)));
    let existing: usize =
        site.runs.iter().filter(|run| run.existing.value).map(|run| run.sections.len()).sum();
    assert_eq!(found.len(), existing, "cables in the walls");
    laid.extend(found);
    // Of several side by side each has a row: `A-desk #2`.
    let mut listed: BTreeMap<String, usize> = BTreeMap::new();
    for (name, count) in column(part(tables, Part::Cables), 0) {
        assert_eq!(count, 1, "{name} in the cable list");
        listed.insert(name.split(" #").next().unwrap_or_default().to_string(), 1);
    }
    assert_eq!(laid, listed, "cables laid");
    let addressed: usize =
        subject.assessment.addresses.stations.iter().filter(|station| station.numbers.is_some()).count();
    let set = column_where(before, 1, 2, "Set ");
    assert!(set.len() == addressed && set.values().all(|count| *count == 1), "addresses set: {set:?}");

    check_order(site, subject, before, part(tables, Part::Live));

    // Every station of a dwelling is called once, or nobody can call it.
    let live = part(tables, Part::Live);
    let mut called = column_where(live, 1, 2, "Call from");
    called.extend(column_where(live, 1, 2, "No entrance"));
    let homes = site.dwellings.iter().flat_map(|dwelling| dwelling.stations.iter());
    assert_eq!(called, names(homes.map(|station| &site.stations[*station].id)), "stations called");

    let voltages = column(part(tables, Part::Voltages), 0);
    for station in &site.stations {
        assert_eq!(voltages.get(&format!("{}:in", station.id)), Some(&1), "{} in the voltages", station.id);
    }
    for item in &site.boxes {
        for terminal in std::iter::once(String::from("in"))
            .chain((1..=site.box_model(item).ports.value).map(|port| port.to_string()))
        {
            let terminal = format!("{}:{terminal}", item.id);
            assert_eq!(voltages.get(&terminal), Some(&1), "{terminal} in the voltages");
        }
    }

    let snags = part(tables, Part::Snags);
    let of_check = snags.body().filter(|cells| !cells[1].words().is_empty()).count();
    let accepted = subject.assessment.findings.iter().filter(|finding| finding.accepted.is_some()).count();
    let wanted = subject.findings.len() + subject.assessment.not_judged.len() + accepted;
    assert_eq!(of_check, wanted, "snags");
}

/// Stages have letters that go on from sheet to sheet; bare ends are tested before anything is terminated; doors are tried before
/// stations are told to open them; and no joint that fails the site stays hidden without a word.
fn check_order(site: &Site, subject: &Subject<'_>, before: &Table, live: &Table) {
    let headings = [before, live].into_iter().flat_map(|table| &table.rows).filter_map(|row| match row {
        Row::Heading(heading) => Some(heading.as_str()),
        Row::Cells(_) => None,
    });
    let headings: Vec<&str> = headings.collect();
    let letters: String = headings.iter().filter_map(|heading| heading.chars().next()).collect();
    let expected: String = ('A'..='Z').take(letters.len()).collect();
    assert_eq!(letters, expected, "{headings:?}");
    let at = |wanted: &str| headings.iter().position(|heading| heading.contains(wanted));
    for pair in
        [["prove dead", "Pull"], ["Pull", "bare ends"], ["bare ends", "Terminate"], ["Terminate", "Power up"]]
    {
        assert!(at(pair[0]).is_some() && at(pair[0]) < at(pair[1]), "{pair:?} in {headings:?}");
    }
    assert!(at("Device list") < at("Doors") && at("Doors") < at("Every station"));
    let rows: Vec<&[Cell]> = live.body().collect();
    for (run, site_run) in site.runs.iter().enumerate() {
        let measured = before.body().filter(|cells| {
            cells[1].words() == site_run.id.as_str() && cells[2].words().starts_with("Loop resistance")
        });
        assert_eq!(measured.count(), 1, "{}", site_run.id);
        let told = rows.iter().filter(|cells| cells[1].words() == site_run.id.as_str());
        let hiding = subject.readings.joints_of(run).filter(|joint| joint.hides_a_failure());
        let asked = told.filter(|cells| cells[2].words().contains("would not show"));
        assert_eq!(asked.count(), hiding.count(), "{}", site_run.id);
    }
}

/// One label for each device, two for each cable; of a failing site one more on every sheet, which says so.
fn check_labels(subject: &Subject<'_>) {
    let sheets = latchline_pack::labels::sheets(subject).expect("labels");
    let files = latchline_pack::labels::files(&sheets);
    let text = |start: &str| -> String {
        let of = files.iter().filter(|file| file.name.starts_with(start));
        of.map(|file| String::from_utf8_lossy(&file.bytes).into_owned()).collect()
    };
    assert_eq!(
        text("labels/devices").matches("class=\"code\"").count(),
        subject.order.len(),
        "device labels"
    );
    let pieces: u32 = subject.wiring.cables.iter().map(|cable| cable.laid.side_by_side).sum();
    // The warning is white on black.
    let bold = |text: &str| text.matches("font-weight=\"700\"").count();
    let warnings: usize = sheets[1].sheets.iter().map(warning_lines).sum();
    let is_failing = tables::error_line(subject).is_some();
    assert!(
        sheets
            .iter()
            .flat_map(|drawing| &drawing.sheets)
            .all(|sheet| (warning_lines(sheet) > 0) == is_failing)
    );
    let ends = bold(&text("labels/cable-ends")) - warnings;
    assert_eq!(ends, 2 * pieces as usize, "cable labels");
}

/// Lines of the label that says that a site fails: the first of a sheet, in inverse letters, and no code beside it.
fn warning_lines(sheet: &latchline_scene::Scene) -> usize {
    use latchline_scene::{Layer, Node};
    let Some(Node::Group(first)) = sheet.root.nodes.first() else { return 0 };
    let has_code = first.nodes.iter().any(|node| matches!(node, Node::Group(_)));
    let in_trouble = first.nodes.iter().filter(|node| matches!(node, Node::Text(_, Layer::Trouble)));
    if has_code { 0 } else { in_trouble.count() }
}

/// Stock has no room beside its labels, so the first label of every sheet of a failing site says what the cover says, on either paper.
#[test]
fn label_sheets_of_a_failing_site_say_so() {
    let text = interfaces::SITE.replacen("length = \"20 m\"", "length = \"900 m\"", 1);
    let made = Made::of(resolved(&text));
    for paper in [latchline_handover::Paper::A4, latchline_handover::Paper::Letter] {
        for language in [Language::English, Language::German] {
            let locale = Locale { language, units: Units::Metric };
            let (options, stamp) = (Options { paper, locale, ..Options::default() }, stamp());
            let subject = Subject::new(&made.input(), &options, &stamp);
            let line = tables::error_line(&subject).expect("the site fails");
            for sheet in
                latchline_pack::labels::sheets(&subject).expect("labels").iter().flat_map(|one| &one.sheets)
            {
                let Some(latchline_scene::Node::Group(first)) = sheet.root.nodes.first() else {
                    panic!("a label")
                };
                let words = first.nodes.iter().filter_map(|node| match node {
                    latchline_scene::Node::Text(text, _) => Some(text.text.as_str()),
                    _ => None,
                });
                let said = words.collect::<Vec<_>>().join(" ");
                let close = |text: &str| text.replace([' ', '-'], "");
                assert_eq!(close(&said), close(&line));
            }
        }
    }
    let held = Made::of(resolved(interfaces::SITE));
    let (options, stamp) = (Options::default(), stamp());
    check_labels(&Subject::new(&held.input(), &options, &stamp));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_stands_in_each_schedule_once(
        floors in prop::collection::vec((1_u8..7, 0_u8..3), 1..6),
        names in prop::sample::select(vec!["A-", "=1+", "شقة ", "部屋", "Flat \"Nord\" & Süd "]),
        entrances in 1_u8..3,
    ) {
        check(resolved(&site_text(&floors, names, entrances)));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_stands_on_one_job_card(
        floors in prop::collection::vec((1_u8..7, 0_u8..3), 1..5),
        names in prop::sample::select(vec!["A-", "=1+", "شقة ", "部屋", "Flat \"Nord\" & Süd "]),
        entrances in 1_u8..3,
    ) {
        job_cards::check(resolved(&site_text(&floors, names, entrances)));
    }
}

fn small_site() -> Site {
    resolved(&site_text(&[(3, 0), (4, 1), (2, 2)], "A-", 2))
}

fn pack(input: &PackInput<'_>, options: &Options) -> Vec<PackFile> {
    let stamp = stamp();
    let pack = latchline_pack::put_together(input, options, &stamp).expect("a pack");
    let mut files = latchline_pack::files(&pack).expect("a pack");
    files.push(latchline_pack::contents_file(&pack, &files));
    files
}

fn text_of(site: &Site, options: &Options) -> Vec<(String, String)> {
    let made = Made::of(site.clone());
    let files = pack(&made.input(), options);
    files.into_iter().map(|file| (file.name, String::from_utf8_lossy(&file.bytes).into_owned())).collect()
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let made = Made::of(small_site());
    let make = || pack(&made.input(), &Options::default());
    assert_eq!(make(), make());
}

#[test]
fn every_text_file_says_revision_input_and_cautions() {
    let hash = stamp().input_sha256;
    for (name, text) in text_of(&small_site(), &Options::default()) {
        if !name.ends_with(".xlsx") {
            assert!(text.contains(&hash), "{name} has the hash");
            assert!(text.contains("not a certificate"), "{name} has the cautions");
            assert!(text.contains(&hash[..8]), "{name} has the revision");
        }
    }
}

#[test]
fn the_client_sees_no_prices_and_the_installer_none_either() {
    let site = small_site();
    for (audience, prices) in
        [(Audience::Client, false), (Audience::Installer, false), (Audience::Office, true)]
    {
        let options = Options { audience, ..Options::default() };
        let files = text_of(&site, &options);
        let parts = files.iter().find(|(name, _)| name.contains("-parts.csv")).map(|(_, text)| text);
        assert_eq!(parts.expect("a parts list").contains("Unit price"), prices, "{audience:?}");
        let has = |part: &str| files.iter().any(|(name, _)| name.contains(part));
        assert_eq!(has("-wiring.csv"), audience != Audience::Client);
        assert_eq!(has("switch-cards"), audience != Audience::Client);
    }
}

#[test]
fn german_and_american_packs() {
    let site = small_site();
    let options =
        Options { locale: Locale { language: Language::German, ..Locale::default() }, ..Options::default() };
    for (name, text) in text_of(&site, &options).iter().filter(|(name, _)| name.ends_with(".csv")) {
        for english in ["Isolate and prove", "Wiring schedule", "Voltage at", "holds in", "Length"] {
            assert!(!text.contains(english), "{name} says {english:?}");
        }
        assert!(text.contains("kein Konformitätsnachweis"), "{name}");
    }
    let options = Options { locale: Locale { units: Units::Us, ..Locale::default() }, ..Options::default() };
    let files = text_of(&site, &options);
    let cables = files.iter().find(|(name, _)| name.contains("-cables.csv")).expect("a cable list");
    // 12 m are 39.4 ft, rounded up (the foot is 0.3048 m by definition).
    assert!(cables.1.contains("Length, ft") && cables.1.contains(",39.4,"), "{}", cables.1);
}

#[test]
fn a_cell_of_a_formula_like_name_is_text() {
    let site = resolved(&site_text(&[(2, 0)], "=1+", 1));
    let files = text_of(&site, &Options::default());
    let devices = files.iter().find(|(name, _)| name.contains("-devices.csv")).expect("a device schedule");
    assert!(devices.1.contains("'=1+1"), "guarded: {}", devices.1);
    assert_eq!(Cell::text("=1+1").words(), "=1+1");
}

/// The guide marks the parts of the client's pack, no more and no fewer.
#[test]
fn the_guide_marks_what_the_client_gets() {
    let guide = include_str!("../../../docs/pack.md");
    for part in Part::ALL {
        let name = format!("`{part}`");
        let row = guide.lines().find(|line| {
            line.starts_with("| ") && line.split('|').nth(1).is_some_and(|cell| cell.contains(&name))
        });
        let row = row.unwrap_or_else(|| panic!("{part} has no row in the guide"));
        assert_eq!(row.trim_end().ends_with("| x |"), part.is_for(Audience::Client), "{row}");
    }
}
