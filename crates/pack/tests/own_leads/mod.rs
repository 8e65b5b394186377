//! Batteries, their fuses and modules terminal by terminal, and what a catalogue says of how a part is bought and mounted.

use crate::{Made, resolved, stamp};
use latchline_finding::{Language, Sources};
use latchline_handover::{Cell, Options, Part, Subject, Table, tables};
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use latchline_wiring::Pole;

const HOUSE: &str = "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
     [buildings]\nA = { floors = [\"G\", \"1\"] }\n[supplies]\nPS = { model = \"ostrel-ps-120b\", place = \"A/G\", batteries = 2 }\n\
     [distributors]\nD = { model = \"ostrel-d4\", place = \"A/G\" }\n[branch-boxes]\nT = { model = \"ostrel-t2\", place = \"A/1\" }\n\
     [entrances]\nfront = { role = \"main\", place = \"A/G\", accessories = [\"ostrel-keypad\", \"ostrel-reader\"] }\n\
     [dwellings]\nA-1 = { place = \"A/1\" }\n[runs]\n\
     feed = { from = \"PS\", to = \"D\", cable = \"flex-1.5\", length = \"1 m\" }\ndoor = { from = \"D.1\", to = \"front\", length = \"8 m\" }\n\
     riser = { from = \"D.2\", to = \"T\", length = \"8 m\" }\nflat = { from = \"T.1\", to = \"A-1\", length = \"3 m\" }\n";

fn look<T>(site: Site, look: impl FnOnce(&Subject<'_>, &[Table]) -> T) -> T {
    let made = Made::of(site);
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    look(&subject, &tables::tables(&subject))
}

fn of(tables: &[Table], part: Part) -> &Table {
    tables.iter().find(|table| table.part == part).expect("the part is there")
}

/// By hand: from plus of the supply over each battery's fuse to its plus, and back from its minus.
#[test]
fn every_battery_has_its_terminals_and_its_fuse() {
    look(resolved(HOUSE), |subject, tables| {
        let joined = |from: &str| -> Vec<String> {
            let name = |terminal: &latchline_wiring::Terminal| terminal.name(subject.site, Language::English);
            let found = subject.wiring.terminals.iter().find(|(terminal, _)| name(terminal) == from);
            let (_, landings) = found.unwrap_or_else(|| panic!("no terminal {from}"));
            landings.iter().filter_map(|landing| landing.other.as_ref().map(name)).collect()
        };
        assert_eq!(joined("PS:battery +"), ["PS/battery1:fuse 1", "PS/battery2:fuse 1"]);
        assert_eq!(joined("PS:battery −"), ["PS/battery1:battery −", "PS/battery2:battery −"]);
        for number in [1, 2] {
            assert_eq!(
                joined(&format!("PS/battery{number}:fuse 2")),
                [format!("PS/battery{number}:battery +")]
            );
        }
        let wiring = of(tables, Part::Wiring);
        for battery in ["PS/battery1", "PS/battery2"] {
            assert_eq!(wiring.body().filter(|cells| cells[0].words() == battery).count(), 4, "{battery}");
        }
    });
}

/// A module's lead has its bus and its power: four conductors from the station, four on to the next module.
#[test]
fn modules_have_bus_and_power() {
    look(resolved(HOUSE), |subject, _| {
        let modules: Vec<_> = subject
            .wiring
            .terminals
            .iter()
            .filter(|(terminal, _)| matches!(terminal.item, latchline_wiring::Item::Module { .. }))
            .collect();
        let poles = [Pole::BusOne, Pole::BusTwo, Pole::Plus, Pole::Minus];
        assert_eq!(modules.len(), 2 * 2 * poles.len());
        for (terminal, landings) in modules {
            assert!(poles.contains(&terminal.pole), "{terminal:?}");
            for landing in landings {
                assert_eq!(landing.other.map(|other| other.pole), Some(terminal.pole), "{terminal:?}");
            }
        }
    });
}

/// The supply of the built-in catalogue as a firm of its own would buy it.
fn bought_as(own: &str) -> Site {
    let mut sources = Sources::new();
    let file = sources.add("site.toml", HOUSE);
    let (name, builtin) = builtin_catalogue();
    let from = builtin.find("[supplies.ostrel-ps-120b]").expect("the supply is there");
    let end = builtin[from..].find("\n[boxes").map_or(builtin.len(), |length| from + length);
    let table = builtin[from..end].replacen("title =", &format!("replaces = true\n{own}title ="), 1);
    let table = table.replacen("capacity =", "fuse = \"5 A\", capacity =", 1);
    let currency = "currency = \"EUR\"\n";
    let second = sources.add("own.toml", format!("{currency}{table}"));
    let catalogue = sources.add(name, builtin);
    let resolved = resolve(&sources, file, &[catalogue, second]);
    resolved.site.unwrap_or_else(|| panic!("{:?}\n{table}", resolved.findings))
}

#[test]
fn a_catalogue_says_under_which_number_and_in_what_a_part_is_bought() {
    let own = "article = \"70-1234\"\nenclosure = \"wall box 300 mm\"\nglands = \"3 x M20\"\nmains_fuse = \"2 A\"\n";
    look(bought_as(own), |_, tables| {
        let parts = of(tables, Part::Parts);
        let line = |begins: &str| {
            parts.body().find(|cells| cells.iter().any(|cell| cell.words().starts_with(begins)))
        };
        assert!(line("article 70-1234").is_some());
        for housing in
            ["Enclosure for ostrel-ps-120b: wall box 300 mm", "Cable glands for one ostrel-ps-120b: 3 x M20"]
        {
            let cells = line(housing).unwrap_or_else(|| panic!("no line {housing}"));
            assert_eq!(cells[3], Cell::Count(1), "{housing}");
        }
        let cupboards = of(tables, Part::Cupboards);
        for rating in ["2 A", "5 A"] {
            assert!(cupboards.body().any(|cells| cells[2].words() == rating), "no fuse of {rating}");
        }
        // The branch box upstairs is on its card, and has no page.
        assert!(!cupboards.body().any(|cells| cells[0].words() == "T"));
        assert!(cupboards.body().any(|cells| cells[0].words() == "D"));
    });
}
