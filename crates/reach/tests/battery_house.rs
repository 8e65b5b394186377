//! The hours of a battery are said of a house that works, or the reason is.

#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_finding::Sources;
use latchline_reach::Question;
use latchline_reach::telephone::{NoHours, battery_hours, supplies_of};
use latchline_reach::{MOST_STATIONS, default_question};
use latchline_site::{LoadedCatalogues, builtin_catalogue};

/// The house with the family's supply that has a battery.
fn question(loaded: &LoadedCatalogues, family: &str) -> Option<Question> {
    let catalogue = loaded.catalogue();
    let supplies = supplies_of(catalogue, family);
    let with_battery = supplies.into_iter().find(|(_, name)| catalogue.supplies[name].battery.is_some());
    Some(Question { supply: with_battery?.1, ..default_question(catalogue, family)? })
}

/// Of every family and every fifth number of stations: hours of a house in which no error stands, or errors that are no matter of how the house was
/// laid out. Four stations on each port make four ends for twelve, and in the family with terminators four of 100 ohm side by side take more of
/// the signal than it has; with six on a port it works.
#[test]
fn every_family_answers_or_says_why_not() {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    let (mut answered, mut shared) = (0, 0);
    for family in loaded.catalogue().families.keys() {
        let Some(question) = question(&loaded, family) else { continue };
        let most = loaded.catalogue().stations[&question.station].most_per_supply.as_ref();
        for stations in [1, 2, 4, 5, 7, 9, 12, 15, 16, 20, 27, 40] {
            assert!(stations <= MOST_STATIONS);
            match battery_hours(&sources, &loaded, &question, stations, None).unwrap() {
                Err(NoHours::FigureMissing) => {
                    assert_eq!(family, "mossop-24", "its battery is not described in full")
                }
                Err(NoHours::NoBattery) => panic!("{family}: a supply with a battery was asked"),
                Ok(answer) if answer.on_one.works(None) => {
                    let found = &answer.on_one;
                    assert!(answer.shared.is_none(), "one supply bears them: {answer:?}");
                    assert!(found.hours > 1.0, "{family} {stations}: {found:?}");
                    assert!(found.also_tried.is_empty());
                    answered += 1;
                }
                Ok(answer) => {
                    let found = &answer.on_one;
                    // What is shared works, and with one supply fewer it does not.
                    if let Some((supplies, each)) = &answer.shared {
                        assert_eq!(each.stations, stations.div_ceil(*supplies));
                        let fewer = stations.div_ceil(supplies - 1);
                        let of = |count| {
                            battery_hours(&sources, &loaded, &question, count, None).unwrap().unwrap().on_one
                        };
                        assert!(of(each.stations).works(None) && !of(fewer).works(None), "{answer:?}");
                        assert_eq!(of(each.stations), *each);
                        shared += 1;
                    }
                    let codes: Vec<&str> = found.limits.iter().map(|code| code.as_str()).collect();
                    let too_many = most.is_some_and(|most| stations > most.value as usize);
                    let by_signal = codes == ["signal-too-weak"];
                    assert!(
                        too_many || by_signal || codes.contains(&"supply-overloaded"),
                        "{family} {stations}: {codes:?}"
                    );
                    // Where only the signal stands in the way, other ways of laying it out were tried and failed too.
                    assert!(!by_signal || !found.also_tried.is_empty(), "{family} {stations}: {found:?}");
                }
            }
            if family == "larkfen-24" && stations == 12 {
                let found =
                    battery_hours(&sources, &loaded, &question, stations, None).unwrap().unwrap().on_one;
                assert_eq!((found.limits.len(), found.on_a_port), (0, 6), "{found:?}");
            }
        }
    }
    assert!(answered >= 12 && shared >= 2, "{answered} {shared}");
}
