//! Reach against the whole check as the oracle, and against the closed form of a chain of equal
//! constant currents.

use latchline_assess::assess;
use latchline_finding::{FileId, Severity, Sources};
use latchline_reach::{BareSite, MOST_STATIONS, Question, ReachLimit, default_question, largest_chain};
use latchline_site::{LoadedCatalogues, builtin_catalogue};

/// Codes of the check that answer the same question; addresses, locks and the like do not.
const SAME_QUESTION: [&str; 9] = [
    "voltage-too-low",
    "no-operating-point",
    "supply-overloaded",
    "port-overloaded",
    "supply-count-exceeded",
    "too-many-stations-on-port",
    "run-too-long",
    "total-length-exceeded",
    "chain-not-allowed",
];

fn builtin() -> (Sources, Vec<FileId>) {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    (sources, vec![file])
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
                    let fails = assessment.findings.iter().any(|finding| {
                        finding.severity == Severity::Error && SAME_QUESTION.contains(&finding.code.as_str())
                    });
                    assert_eq!(
                        fails,
                        stations > cell.stations,
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
