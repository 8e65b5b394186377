//! A run from one building to another with a surge protector at each end: terminals, joints, parts, earths and steps.

use crate::{Made, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::{Cell, Options, Part, Subject, Table, tables};
use latchline_wiring::{By, Item, TerminalSet};

/// Two houses with a distributor each; the link between them has what stands at the mark.
fn two_houses(link: &str) -> String {
    format!(
        "[site]\ntitle = \"Two houses\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
         [buildings]\nA = {{ floors = [\"G\"] }}\nB = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
         [distributors]\nDA = {{ model = \"ostrel-d4\", place = \"A/G\" }}\nDB = {{ model = \"ostrel-d4\", place = \"B/G\" }}\n\
         [entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n[dwellings]\nA-1 = {{ place = \"A/G\" }}\nB-1 = {{ place = \"B/G\" }}\n[runs]\n\
         feed = {{ from = \"PS\", to = \"DA\", cable = \"flex-1.5\", length = \"1 m\" }}\ndoor = {{ from = \"DA.1\", to = \"front\", length = \"8 m\" }}\n\
         flat-a = {{ from = \"DA.2\", to = \"A-1\", length = \"8 m\" }}\nflat-b = {{ from = \"DB.1\", to = \"B-1\", length = \"8 m\" }}\n\
         link = {{ from = \"DA.3\", to = \"DB\", cable = \"outdoor-0.8\", length = \"30 m\", environment = \"buried\"{link} }}\n"
    )
}

fn with<T>(text: &str, units: Units, look: impl FnOnce(&Subject<'_>, &[Table]) -> T) -> T {
    let made = Made::of(resolved(text));
    let options = Options { locale: Locale { units, ..Locale::default() }, ..Options::default() };
    let stamp = stamp();
    let subject = Subject::new(&made.input(), &options, &stamp);
    look(&subject, &tables::tables(&subject))
}

fn of(tables: &[Table], part: Part) -> &Table {
    tables.iter().find(|table| table.part == part).expect("the part is there")
}

/// By hand: DA:3 – short wire – link/surge protected, link/surge line – cable – link/surge-end line, link/surge-end protected – short
/// wire – DB:in. Nothing else lands there but the two earths and the screen.
#[test]
fn the_line_goes_through_both() {
    with(&two_houses(", surge_protection = \"1 ohm\""), Units::Metric, |subject, tables| {
        let site = subject.site;
        let wanted = [
            ("DA:3 +", "short wire", "link/surge:protected +"),
            ("link/surge:line +", "cable", "link/surge-end:line +"),
            ("link/surge-end:protected +", "short wire", "DB:in +"),
            ("DA:3 −", "short wire", "link/surge:protected −"),
            ("link/surge:line −", "cable", "link/surge-end:line −"),
            ("link/surge-end:protected −", "short wire", "DB:in −"),
        ];
        for (one, by, other) in wanted {
            for (here, there) in [(one, other), (other, one)] {
                let found = subject
                    .wiring
                    .terminals
                    .iter()
                    .find(|(terminal, _)| terminal.name(site, Language::English) == here);
                let (_, landings) = found.unwrap_or_else(|| panic!("no terminal {here}"));
                let [landing] = &landings[..] else { panic!("{here}: {landings:?}") };
                assert_eq!(
                    landing.other.map(|other| other.name(site, Language::English)).as_deref(),
                    Some(there)
                );
                assert_eq!(matches!(landing.by, By::Link), by == "short wire", "{here}");
            }
        }
        let parts = of(tables, Part::Parts);
        let count = |begins: &str| {
            let line = parts.body().find(|cells| cells[2].words().starts_with(begins));
            line.map(|cells| cells[3].clone())
        };
        assert_eq!(count("Surge protector, 1 ohm"), Some(Cell::Count(2)));
        assert_eq!(count("Earth conductor for a surge protector"), Some(Cell::Count(2)));
        let steps = of(tables, Part::BeforePower);
        let fitted: Vec<&str> = steps
            .body()
            .filter(|cells| cells[2].words().starts_with("Surge protector: fit"))
            .map(|cells| cells[1].words())
            .collect();
        assert_eq!(fitted, ["link/surge", "link/surge-end"]);
        let cables = of(tables, Part::Cables);
        let link = cables.body().find(|cells| cells[0].words() == "link").expect("the link");
        assert_eq!([link[6].words(), link[7].words()], ["link/surge:line", "link/surge-end:line"]);
        assert!(link[10].words().contains("at its start") && link[10].words().contains("at its end"));
    });
}

/// Each cupboard's bar has a terminal for what is earthed there: at A the protector and the screen of the link, which is earthed at that end
/// alone; at B the protector.
#[test]
fn each_bar_names_what_lands_on_it() {
    with(&two_houses(", surge_protection = \"1 ohm\""), Units::Metric, |subject, tables| {
        let bars: Vec<(String, Vec<String>)> = subject
            .wiring
            .earth_bars
            .iter()
            .map(|bar| {
                let building = &subject.site.buildings[bar.place.building.expect("a building")].id;
                (
                    building.to_string(),
                    bar.earthed.iter().map(|one| one.name(subject.site, Language::English)).collect(),
                )
            })
            .collect();
        let names = |names: &[&str]| names.iter().map(|name| name.to_string()).collect::<Vec<_>>();
        assert_eq!(
            bars,
            [
                (String::from("A"), names(&["link/surge:earth", "link/surge:screen"])),
                (String::from("B"), names(&["link/surge-end:earth"])),
            ]
        );
        let cupboards = of(tables, Part::Cupboards);
        let on_bar: Vec<[&str; 2]> = cupboards
            .body()
            .filter(|cells| cells[1].words().starts_with("earth bar, terminal"))
            .map(|cells| [cells[0].words(), cells[1].words()])
            .collect();
        assert_eq!(
            on_bar,
            [
                ["link/surge", "earth bar, terminal 1"],
                ["link", "earth bar, terminal 2"],
                ["link/surge-end", "earth bar, terminal 1"],
            ]
        );
        // In the parts list each bar has a terminal more, for the conductor that joins it to the earth of its house (common practice, no source).
        let parts = of(tables, Part::Parts);
        let count = |title: &str| {
            let line = parts.body().find(|cells| cells[2].words().starts_with(title));
            line.map(|cells| cells[3].clone())
        };
        assert_eq!(count("Earth and screen bar, 3 terminals"), Some(Cell::Count(1)));
        assert_eq!(count("Earth and screen bar, 2 terminals"), Some(Cell::Count(1)));
        assert_eq!(count("Conductor from an earth bar to the main earthing terminal"), Some(Cell::Count(2)));
        assert_eq!(count("Conductor from an earth bar outdoors"), None);
        // The same terminals in the wiring schedule.
        let wiring = of(tables, Part::Wiring);
        let leads = |device: &str, mark: &str| {
            let row = wiring.body().find(|cells| cells[0].words() == device && cells[1].words() == mark);
            let row = row.unwrap_or_else(|| panic!("no {device}:{mark}"));
            [row[7].words().to_string(), row[8].words().to_string()]
        };
        assert_eq!(leads("link/surge-end", "earth")[0], "earth bar, terminal 1");
        assert!(leads("link/surge", "screen")[1].ends_with("→ earth bar, terminal 2"));
        assert!(leads("link/surge-end", "screen")[1].contains("cut back and insulate"));
    });
}

/// A gate outside every building has no main earthing terminal: what is earthed there has a bar, and every sheet says that the plan does not have
/// its earth. At a door in a building a single protector has a conductor of its own (common practice, no source).
#[test]
fn a_gate_outside_says_where_it_is_earthed() {
    let gate = |place: &str| {
        two_houses("")
            .replace("[dwellings]", &format!("gate = {{ role = \"secondary\", place = \"{place}\", surge_protection = \"1 ohm\" }}\n[dwellings]"))
            .replace("[runs]\n", "[runs]\nto-gate = { from = \"DA.4\", to = \"gate\", cable = \"outdoor-0.8\", length = \"20 m\", environment = \"buried\" }\n")
    };
    with(&gate("outdoors"), Units::Metric, |subject, tables| {
        let entrance = subject.site.entrances.iter().position(|entrance| entrance.id.as_str() == "gate");
        let bar = subject.wiring.door_bar(entrance.expect("the gate")).expect("a bar");
        assert!(bar.is_outside());
        let earthed: Vec<String> =
            bar.earthed.iter().map(|one| one.name(subject.site, Language::English)).collect();
        assert_eq!(earthed, ["gate/surge:earth"]);
        let wiring = of(tables, Part::Wiring);
        let row = wiring.body().find(|cells| cells[0].words() == "gate/surge" && cells[1].words() == "earth");
        assert_eq!(row.expect("its earth")[7].words(), "earth bar, terminal 1");
        for (part, column) in [(Part::Cupboards, 3), (Part::Doors, 4)] {
            let said =
                of(tables, part).body().filter(|cells| cells[column].words().contains("earth electrode"));
            assert_eq!(said.count(), 1, "{part}");
        }
        let parts = of(tables, Part::Parts);
        let lines =
            parts.body().filter(|cells| cells[2].words().starts_with("Conductor from an earth bar outdoors"));
        assert_eq!(lines.map(|cells| cells[3].clone()).collect::<Vec<_>>(), [Cell::Count(1)]);
        let card = tables::door_lines(subject, entrance.expect("the gate"));
        assert!(card.iter().any(|line| line.contains("earth electrode")), "{card:?}");
    });
    with(&gate("A/G"), Units::Metric, |subject, tables| {
        assert!(subject.wiring.earth_bars.iter().all(|bar| bar.door.is_none()));
        let wiring = of(tables, Part::Wiring);
        let row = wiring.body().find(|cells| cells[0].words() == "gate/surge" && cells[1].words() == "earth");
        assert_eq!(row.expect("its earth")[7].words(), "main earthing terminal");
    });
}

/// A stated earth conductor is written as stated and called assumed nowhere; in US units with its gauge.
#[test]
fn a_stated_earth_conductor_is_not_assumed() {
    let text = two_houses(", surge_protection = \"1 ohm\", surge_earth = \"6 mm²\"");
    for (units, size) in [(Units::Metric, "6 mm² Cu"), (Units::Us, "AWG) Cu")] {
        with(&text, units, |_, tables| {
            let wiring = of(tables, Part::Wiring);
            let earths: Vec<&[Cell]> =
                wiring.body().filter(|cells| cells[3].words() == "earth conductor").collect();
            assert_eq!(earths.len(), 2);
            for cells in earths {
                assert!(cells[4].words().ends_with(size), "{cells:?}");
                assert!(!cells[8].words().contains("assumed"), "{cells:?}");
            }
            assert!(!wiring.notes.iter().any(|note| note.contains("states no cross-section")));
            let parts = of(tables, Part::Parts);
            let line = parts.body().find(|cells| cells[2].words().starts_with("Earth conductor"));
            assert!(!line.expect("a line")[2].words().contains("assumed"));
        });
    }
}

#[test]
fn where_the_site_file_says_one_end_there_is_one() {
    for (at, name) in [("start", "link/surge"), ("end", "link/surge-end")] {
        let text = two_houses(&format!(", surge_protection = \"1 ohm\", surge_protection_at = \"{at}\""));
        with(&text, Units::Metric, |subject, _| {
            let items = subject.wiring.items();
            let protectors: Vec<String> = items
                .into_iter()
                .filter(|item| matches!(item, Item::Protector(_)))
                .map(|item| subject.name(item))
                .collect();
            assert_eq!(protectors, [name]);
            let free = subject.wiring.terminals.iter().filter(|(terminal, landings)| {
                matches!(terminal.set, TerminalSet::LineSide | TerminalSet::ProtectedSide)
                    && landings.is_empty()
            });
            assert_eq!(free.count(), 0);
        });
    }
}
