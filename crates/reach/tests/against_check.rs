//! Reach against the whole check as the oracle, and against the closed form of a chain of equal
//! constant currents.

use latchline_assess::assess;
use latchline_assess::rules::codes::SUPPLY_OUTPUTS_EXCEEDED;
use latchline_finding::quantity::Length;
use latchline_finding::{FileId, Finding, Severity, Sources};
use latchline_reach::telephone::{OneRun, Spread, stations_spread};
use latchline_reach::{
    BareSite, FEED_M, MOST_STATIONS, Question, ReachLimit, default_question, largest_chain,
};
use latchline_site::{LoadedCatalogues, builtin_catalogue};

fn builtin() -> (Sources, Vec<FileId>) {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    (sources, vec![file])
}

/// Whether it is an error that counts: where no port can feed a door, the doors hang at the supply by a branch box that the bare site
/// leaves out, so that its outputs are too few.
fn stands(finding: &Finding) -> bool {
    finding.severity == Severity::Error && finding.code != SUPPLY_OUTPUTS_EXCEEDED
}

fn question(sources: &Sources, catalogues: &[FileId], family: &str) -> Question {
    let loaded = LoadedCatalogues::new(sources, catalogues);
    default_question(loaded.catalogue(), family).expect("the built-in family is complete")
}

#[test]
fn the_largest_chain_passes_the_check_and_one_more_does_not() {
    let (sources, catalogues) = builtin();
    for family in ["ostrel-48", "larkfen-24", "mossop-24"] {
        let question = question(&sources, &catalogues, family);
        for cable in ["pair-0.5", "pair-0.8", "flex-1.5"] {
            let bare =
                BareSite::new(&sources, &LoadedCatalogues::new(&sources, &catalogues), &question, cable, 2)
                    .expect("resolves");
            for (spacing_m, feeder_m) in [(3.0, 5.0), (6.0, 20.0), (12.0, 45.0)] {
                let cell = largest_chain(&bare, spacing_m, feeder_m);
                // By brute force: the check of every length up to one more than the answer.
                for stations in 1..=(cell.stations + 1).min(MOST_STATIONS) {
                    let assessment = assess(&bare.with_chain(stations, spacing_m, feeder_m));
                    let fails = assessment.findings.iter().any(stands);
                    assert_eq!(
                        fails,
                        stations > cell.stations || cell.fewer_fail.contains(&stations),
                        "{family} {cable} {spacing_m} m {feeder_m} m: {stations} stations, answer {cell:?}, {:?}",
                        assessment.findings.iter().map(|f| f.code).collect::<Vec<_>>()
                    );
                }
                if cell.stations < MOST_STATIONS {
                    assert_ne!(cell.limit, ReachLimit::None);
                }
            }
        }
    }
}

/// The telephone's question with a stated spacing, put to a house of its own, against the table of chains, which cuts them from a bare site.
#[test]
fn stations_so_far_apart_are_those_of_the_table() {
    let (sources, catalogues) = builtin();
    let loaded = LoadedCatalogues::new(&sources, &catalogues);
    for family in ["ostrel-48", "larkfen-24"] {
        let question = question(&sources, &catalogues, family);
        for (cable, spacing_m) in [("pair-0.5", 4.0), ("pair-0.8", 12.0), ("flex-1.5", 25.0)] {
            let bare = BareSite::new(&sources, &loaded, &question, cable, 2).expect("resolves");
            let cell = largest_chain(&bare, spacing_m, spacing_m);
            let run = OneRun {
                question: question.clone(),
                supply_is_stated: true,
                cable: cable.to_string(),
                total_m: 0.0,
                calls: 2,
            };
            let found = stations_spread(&sources, &loaded, &run, Spread::Apart(spacing_m)).expect("resolves");
            assert_eq!(found.len(), 1);
            assert_eq!(found[0].stations, cell.stations, "{family} {cable} {spacing_m} m: {cell:?}");
            let over = Spread::Over(Spread::Apart(spacing_m).total_m(cell.stations));
            let same = stations_spread(&sources, &loaded, &run, over).expect("resolves");
            assert!(same[0].stations >= cell.stations, "as many hang on as much cable");
        }
    }
}

/// A signal may pass with two stations and not with one: of all numbers up to the end of the table the largest that passes the whole check is
/// the answer, and the smaller ones that do not pass are named.
#[test]
fn no_number_is_missed_where_the_signal_binds() {
    let (sources, catalogues) = builtin();
    let loaded = LoadedCatalogues::new(&sources, &catalogues);
    let question =
        Question { supply: "larkfen-ps-40".into(), ..question(&sources, &catalogues, "larkfen-24") };
    let mut not_always = 0;
    for cable in ["pair-0.8", "cat-5e", "clad-0.5", "outdoor-0.8"] {
        let bare = BareSite::new(&sources, &loaded, &question, cable, 1).expect("resolves");
        for (spacing_m, feeder_m) in [(3.0, 5.0), (8.0, 5.0), (12.0, 5.0), (12.0, 15.0), (20.0, 30.0)] {
            let cell = largest_chain(&bare, spacing_m, feeder_m);
            let passes = |stations: &usize| {
                let assessment = assess(&bare.with_chain(*stations, spacing_m, feeder_m));
                assessment.findings.iter().all(|finding| finding.severity != Severity::Error)
            };
            let works: Vec<usize> = (1..=MOST_STATIONS).filter(passes).collect();
            let largest = works.last().copied().unwrap_or(0);
            assert_eq!(cell.stations, largest, "{cable} {spacing_m} m {feeder_m} m: {works:?}");
            let fewer: Vec<usize> = (1..largest).filter(|count| !works.contains(count)).collect();
            assert_eq!(cell.fewer_fail, fewer, "{cable} {spacing_m} m {feeder_m} m: {works:?}");
            not_always += usize::from(!fewer.is_empty());
        }
    }
    assert!(not_always > 0, "the site is made so that a signal passes with more stations and not with fewer");
}

/// Whatever is printed holds when it is built: with the feed of the bare site and with shorter ones, by every rule of the check.
#[test]
fn a_cell_holds_for_every_feed_up_to_the_stated_one() {
    let (sources, catalogues) = builtin();
    let loaded = LoadedCatalogues::new(&sources, &catalogues);
    for family in ["ostrel-48", "larkfen-24", "mossop-24"] {
        let question = question(&sources, &catalogues, family);
        let calls = loaded.catalogue().families[family].simultaneous_calls.value as usize;
        for cable in ["pair-0.5", "pair-0.8", "flex-0.75"] {
            let bare = BareSite::new(&sources, &loaded, &question, cable, calls).expect("resolves");
            for (spacing_m, feeder_m) in [(3.0, 60.0), (8.0, 5.0), (20.0, 15.0)] {
                let cell = largest_chain(&bare, spacing_m, feeder_m);
                if cell.stations == 0 {
                    continue;
                }
                for feed_m in [0.5, 1.5, FEED_M] {
                    let mut site = bare.with_chain(cell.stations, spacing_m, feeder_m);
                    let feed = site.runs.iter_mut().find(|run| run.id.as_str() == "feed").expect("a feed");
                    feed.sections[0].length.value = Length::from_metres(feed_m);
                    let errors: Vec<_> = assess(&site)
                        .findings
                        .into_iter()
                        .filter(stands)
                        .map(|finding| finding.code)
                        .collect();
                    assert!(errors.is_empty(), "{family} {cable} {feed_m} m of feed, {cell:?}: {errors:?}");
                }
            }
        }
    }
}
