//! What a site has in hand, against a site file written anew for every count and checked as a whole.

use latchline_assess::{Assessment, Memory, assess};
use latchline_finding::{Severity, Sources};
use latchline_reach::{headroom, more_here};
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use std::collections::BTreeSet;

/// Two runs from one distributor. Run `long` is behind so much cable that voltage binds it first.
struct House {
    /// Models of the stations of run `short`, in order.
    short: Vec<&'static str>,
    /// Models of the stations of run `long`, in order.
    long: Vec<&'static str>,
    /// Models of the stations of a run from the free port, like run `short`, in order.
    new: Vec<&'static str>,
    /// Length of the last section of run `long` in metres.
    last_m: f64,
}

const SPACING_M: f64 = 6.0;

impl House {
    fn as_it_is() -> Self {
        House {
            short: vec!["ostrel-v4", "ostrel-v7"],
            long: vec!["ostrel-v7", "ostrel-v7"],
            new: Vec::new(),
            last_m: SPACING_M,
        }
    }

    fn text(&self) -> String {
        let mut text = String::from(
            "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\ndoor_station = \"ostrel-dv1\"\n\
             indoor_station = \"ostrel-v4\"\ncable = \"pair-0.5\"\n\
             [buildings]\nA = { floors = [\"G\"] }\n\
             [supplies]\nPS = { model = \"ostrel-ps-60\", place = \"A/G\" }\n\
             [distributors]\nD1 = { model = \"ostrel-d4\", place = \"A/G\" }\n\
             [entrances]\nfront = { role = \"main\", place = \"A/G\", calls = [\"everyone\"] }\n[dwellings]\n",
        );
        let names = |run: &str, count: usize| -> Vec<String> {
            (0..count).map(|number| format!("{run}-{number}")).collect()
        };
        let (short, long) = (names("short", self.short.len()), names("long", self.long.len()));
        let new = names("new", self.new.len());
        let of_runs = short.iter().zip(&self.short).chain(long.iter().zip(&self.long));
        for (name, model) in of_runs.chain(new.iter().zip(&self.new)) {
            text.push_str(&format!("{name} = {{ place = \"A/G\", station = \"{model}\" }}\n"));
        }
        let mut lengths = vec![45.0];
        lengths.resize(self.long.len(), SPACING_M);
        lengths[1] = self.last_m;
        let quoted =
            |lengths: &[f64]| -> Vec<String> { lengths.iter().map(|length| format!("{length} m")).collect() };
        text.push_str(&format!(
            "[runs]\nfeed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1 m\" }}\n\
             door = {{ from = \"D1.1\", to = \"front\", cable = \"flex-1.5\", length = \"8 m\" }}\n\
             short = {{ from = \"D1.2\", to = {short:?}, first = \"5 m\", spacing = \"{SPACING_M} m\" }}\n\
             long = {{ from = \"D1.3\", to = {long:?}, lengths = {:?} }}\n",
            quoted(&lengths)
        ));
        if !new.is_empty() {
            text.push_str(&format!(
                "new = {{ from = \"D1.4\", to = {new:?}, first = \"5 m\", spacing = \"{SPACING_M} m\" }}\n"
            ));
        }
        text
    }

    fn resolved(&self) -> Site {
        resolved(&self.text())
    }

    fn errors(&self) -> BTreeSet<&'static str> {
        errors(&assess(&self.resolved()))
    }
}

fn resolved(text: &str) -> Site {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let file = sources.add("house.toml", text.to_string());
    let resolved = resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings))
}

fn errors(assessment: &Assessment) -> BTreeSet<&'static str> {
    let errors = assessment.findings.iter().filter(|finding| finding.severity == Severity::Error);
    errors.map(|finding| finding.code.as_str()).collect()
}

/// Every count up to the answer passes, and one more brings the error that is named.
fn holds_against_check(answer: usize, limit: Option<&'static str>, with: impl Fn(usize) -> House) {
    for count in 0..=answer {
        assert_eq!(with(count).errors(), BTreeSet::new(), "{count} of {answer}");
    }
    let limit = limit.expect("some limit binds");
    assert!(with(answer + 1).errors().contains(limit), "{limit}: {:?}", with(answer + 1).errors());
}

#[test]
fn so_many_more_pass_the_check_and_one_more_does_not() {
    let site = House::as_it_is().resolved();
    let assessment = assess(&site);
    assert_eq!(errors(&assessment), BTreeSet::new());
    let rooms = headroom(&site, &assessment);
    let ids: Vec<&str> = rooms.iter().map(|room| room.id.as_str()).collect();
    assert_eq!(ids, ["PS", "short", "long", "D1.4"]);
    let mut limits = BTreeSet::new();
    for room in &rooms {
        let models: Vec<&str> = room.stations.iter().map(|more| more.model.as_str()).collect();
        assert_eq!(models, ["ostrel-a1", "ostrel-v4", "ostrel-v7", "ostrel-v7x"]);
        for (more, model) in room.stations.iter().zip(["ostrel-a1", "ostrel-v4", "ostrel-v7", "ostrel-v7x"]) {
            limits.extend(more.limit);
            if room.id.as_str() == "PS" {
                // The supply's hold where they are said to be added, and are no fewer than one end's alone.
                let mut house = House::as_it_is();
                for (id, count) in &more.spread {
                    let stops = match id.as_str() {
                        "short" => &mut house.short,
                        "long" => &mut house.long,
                        _ => &mut house.new,
                    };
                    stops.extend(std::iter::repeat_n(model, *count));
                }
                assert_eq!(house.errors(), BTreeSet::new(), "{:?}", more.spread);
                assert_eq!(more.spread.iter().map(|(_, count)| count).sum::<usize>(), more.stations);
                let alone = rooms[1..].iter().flat_map(|end| &end.stations).filter(|one| one.model == model);
                assert!(alone.map(|one| one.stations).max() <= Some(more.stations), "{more:?}");
                continue;
            }
            holds_against_check(more.stations, more.limit, |count| {
                let mut house = House::as_it_is();
                for _ in 0..count {
                    match room.id.as_str() {
                        "short" => house.short.push(model),
                        "long" => house.long.push(model),
                        _ => house.new.push(model),
                    }
                }
                house
            });
        }
    }
    let metres = rooms[2].metres.as_ref().expect("a run has metres");
    holds_against_check(metres.metres, metres.limit, |count| House {
        last_m: SPACING_M + count as f64,
        ..House::as_it_is()
    });
    // More than one kind of limit was met, so that this is not about one rule only.
    assert!(limits.len() > 1, "{limits:?}");
}

/// A villa with two free ports: sixteen more on each of them pass the check, so its supply carries no fewer than 32, though its
/// buried run to the stable is full at once.
#[test]
fn a_full_run_does_not_speak_for_the_whole_supply() {
    let villa = include_str!("villa.toml");
    let site = resolved(villa);
    let assessment = assess(&site);
    assert_eq!(errors(&assessment), BTreeSet::new());
    let mut more = String::new();
    let mut runs = String::new();
    for port in [5, 6] {
        let names: Vec<String> = (1..=16).map(|number| format!("More{port}-{number}")).collect();
        names.iter().for_each(|name| more.push_str(&format!("{name} = {{ place = \"V/G\" }}\n")));
        runs.push_str(&format!(
            "more{port} = {{ from = \"V-D1.{port}\", to = {names:?}, first = \"2.7 m\", spacing = \"5.9 m\" }}\n"
        ));
    }
    let added = villa.replace("[runs]\n", &format!("{more}\n[runs]\n{runs}"));
    assert_eq!(errors(&assess(&resolved(&added))), BTreeSet::new());
    let rooms = headroom(&site, &assessment);
    let supply = rooms[0].stations.iter().find(|one| one.model == "ostrel-v4").unwrap();
    assert!(supply.stations >= 32, "{supply:?}");
    let port = rooms.iter().find(|room| room.id.as_str() == "V-D1.5").unwrap();
    let new_run = port.new_run.as_ref().unwrap();
    assert_eq!((new_run.like.as_str(), new_run.cable.as_str(), new_run.first_m), ("V-R1", "pair-0.5", 2.7));
}

/// A run whose loop was measured: a longer one is not held to the reading of the shorter. With so many metres more and the loop that they would
/// add (two conductors of 0.5 mm annealed copper, 1/58 ohm mm²/m by IEC 60028, at 20 °C) it passes the check; the limit is another.
#[test]
fn a_measured_run_is_taken_to_be_measured_again() {
    let metre_ohm = 2.0 / 58.0 / (std::f64::consts::PI / 4.0 * 0.25);
    let with = |more_m: usize| {
        let text = House::as_it_is().text();
        let measured = 2.0 + metre_ohm * more_m as f64;
        let last = SPACING_M + more_m as f64;
        text.replace(
            "first = \"5 m\", spacing = \"6 m\"",
            &format!("lengths = [\"5 m\", \"{last} m\"], measured = {{ loop = \"{measured} ohm\" }}"),
        )
    };
    let site = resolved(&with(0));
    let assessment = assess(&site);
    assert_eq!(errors(&assessment), BTreeSet::new());
    let rooms = headroom(&site, &assessment);
    let short = rooms.iter().find(|room| room.id.as_str() == "short").expect("it is listed");
    let metres = short.metres.as_ref().expect("a run has metres");
    assert_ne!(metres.limit, Some("measured-loop-differs"));
    // Held to 2 ohm, 11 m of cable more than five times as long would be called a slip.
    assert!(metres.metres > 60, "{metres:?}");
    assert_eq!(errors(&assess(&resolved(&with(metres.metres)))), BTreeSet::new());
    let beyond = errors(&assess(&resolved(&with(metres.metres + 1))));
    assert!(metres.limit.is_some_and(|limit| beyond.contains(limit)), "{metres:?} {beyond:?}");
    assert!(short.stations.iter().all(|more| more.limit != Some("measured-loop-differs")), "{short:?}");
}

/// A tower of three risers behind ports that carry sixteen stations each: the first is full and each of the other two has twelve, so that by the
/// count of the data sheet eight more hang on the two together, not the four that fill one of them.
#[test]
fn what_one_port_no_longer_takes_another_does() {
    let mut text = String::from(
        "[site]\ntitle = \"Tower\"\nfamily = \"ostrel-48\"\ndoor_station = \"ostrel-dv1\"\nindoor_station = \"ostrel-v4\"\n\
         cable = \"flex-1.5\"\n[buildings]\nA = { floors = [\"G\"] }\n[supplies]\nPS = { model = \"ostrel-ps-120b\", place = \"A/G\" }\n\
         [distributors]\nD1 = { model = \"ostrel-d4\", place = \"A/G\" }\n[branch-boxes]\n",
    );
    for number in 1..=10 {
        text.push_str(&format!("T{number} = {{ model = \"ostrel-t4\", place = \"A/G\" }}\n"));
    }
    text.push_str(
        "[entrances]\nfront = { role = \"main\", place = \"A/G\", calls = [\"everyone\"] }\n[dwellings]\n",
    );
    (1..=40).for_each(|number| text.push_str(&format!("F{number} = {{ place = \"A/G\" }}\n")));
    text.push_str("[runs]\nfeed = { from = \"PS\", to = \"D1\", length = \"2 m\" }\ndoor = { from = \"D1.1\", to = \"front\", length = \"9 m\" }\n");
    for number in 1..=10 {
        let from = match number {
            1 => String::from("D1.2"),
            5 => String::from("D1.3"),
            8 => String::from("D1.4"),
            later => format!("T{}.4", later - 1),
        };
        text.push_str(&format!(
            "rise{number} = {{ from = \"{from}\", to = \"T{number}\", length = \"3 m\" }}\n"
        ));
        let flat = 4 * (number - 1);
        for (port, first) in [(1, flat + 1), (2, flat + 3)] {
            text.push_str(&format!(
                "R{number}{port} = {{ from = \"T{number}.{port}\", to = [\"F{first}\", \"F{}\"], first = \"5 m\", spacing = \"5 m\" }}\n",
                first + 1
            ));
        }
    }
    let site = resolved(&text);
    let assessment = assess(&site);
    assert_eq!(errors(&assessment), BTreeSet::new());
    let eight = more_here(&site, &assessment, &Memory::default(), "ostrel-v4", 8);
    assert!(eight.works() && eight.limit.is_none(), "{eight:?}");
    assert!(eight.added.len() > 1, "no single end takes eight: {eight:?}");
    let nine = more_here(&site, &assessment, &Memory::default(), "ostrel-v4", 9);
    assert!(!nine.works(), "{nine:?}");
    assert_eq!((nine.count(), nine.limit), (8, Some("too-many-stations-on-port")), "{nine:?}");
    let two = more_here(&site, &assessment, &Memory::default(), "ostrel-v4", 2);
    assert!(two.works() && two.added.len() == 1, "one end takes two: {two:?}");
    let rooms = headroom(&site, &assessment);
    let of_supply = rooms[0].stations.iter().find(|more| more.model == "ostrel-v4").expect("the model");
    assert_eq!(of_supply.stations, 8, "{of_supply:?}");
}
