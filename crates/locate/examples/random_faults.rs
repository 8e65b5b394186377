//! How good the answers are: random faults in sites, readings by two policies, and what was said of each.
//!
//! `random_faults FAULTS SEED SITE.toml ...` prints a table for every site. Every fault is drawn by the rates among those that
//! a meter can see, in a site built with random tolerances; the class that is named must contain the true cause to count.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "a program for measuring"
)]

use latchline_finding::{Sources, StateKind};
use latchline_locate::practise::{Dice, best_course, hide};
use latchline_locate::{
    Age, Element, Evidence, Hypothesis, Kind, Located, Options, Plant, Quantity, Rates, hypotheses, locate,
};
use latchline_network::readings::ReadingPlace;
use latchline_network::{Layout, StageSource};
use latchline_site::{builtin_catalogue, resolve};
use rayon::prelude::*;
use std::time::Instant;

/// Readings of the random policy, and most of the other.
const RANDOM_READINGS: usize = 5;
const MOST_READINGS: usize = 10;

/// What was said of one fault.
struct Said {
    kind: Kind,
    /// Of a miss: what was hidden, what was said, and the probability that was given to what was hidden.
    missed: Option<String>,
    /// Probability of the class named first, and whether it contains the cause.
    first: f64,
    is_right: bool,
    is_in_three: bool,
    /// Whether the most probable single cause is the cause, and lies at its place.
    is_single: bool,
    is_place: bool,
    class_size: usize,
    readings: usize,
    /// Readings that halving the way to the fault would take, and walking along it.
    halving: f64,
    walking: f64,
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let (faults, seed): (u64, u64) = (arguments[1].parse().unwrap(), arguments[2].parse().unwrap());
    println!(
        "| site | policy | faults | first class | first three | place | single cause | Brier | class size | readings | halving | walking |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|---|---|");
    let mut all: Vec<Said> = Vec::new();
    for path in &arguments[3..] {
        let mut sources = Sources::new();
        let (name, text) = builtin_catalogue();
        let catalogue = sources.add(name, text);
        let file = sources.add(path.clone(), std::fs::read_to_string(path).unwrap());
        let site = resolve(&sources, file, &[catalogue]).site.unwrap();
        let layout = Layout::new(&site);
        let plant = Plant::new(&site, &layout);
        let rates = Rates::built_in();
        let causes = hypotheses(&plant, &rates, Age::InService);
        let begun = Instant::now();
        let mut dice = Dice::new(seed);
        let some = random_readings(&plant, &mut dice, 3);
        let hidden = hide(&plant, &causes, seed).unwrap();
        let evidence = Evidence {
            measured: some.iter().filter_map(|one| hidden.answer(one)).collect(),
            ..Evidence::default()
        };
        let _ = locate(&plant, &evidence, &rates, &Options { confidence: 0.0, ..Options::default() });
        let ranked_s = begun.elapsed().as_secs_f64();
        let _ = locate(&plant, &evidence, &rates, &Options { confidence: 1.0, ..Options::default() });
        let whole_s = begun.elapsed().as_secs_f64() - ranked_s;
        eprintln!(
            "{path}: {} stations, {} causes, ranked {ranked_s:.3} s, ranked with next reading {whole_s:.3} s (wall)",
            site.stations.len(),
            causes.len()
        );
        for policy in ["random", "next-best"] {
            let said: Vec<Said> = (0..faults)
                .into_par_iter()
                .filter_map(|number| one(&plant, &causes, &rates, seed * 1_000_003 + number, policy))
                .collect();
            row(path, policy, &said);
            for missed in said.iter().filter_map(|one| one.missed.as_ref()) {
                eprintln!("{policy}: {missed}");
            }
            all.extend(said);
        }
    }
    row("all", "both", &all);
    by_kind(&all);
    println!("\n| said | statements | mean said | right |\n|---|---|---|---|");
    for (low, high) in
        [(0.0, 0.25), (0.25, 0.5), (0.5, 0.7), (0.7, 0.85), (0.85, 0.95), (0.95, 0.99), (0.99, 1.01)]
    {
        let within: Vec<&Said> = all.iter().filter(|one| one.first >= low && one.first < high).collect();
        let count = within.len() as f64;
        let mean = within.iter().map(|one| one.first).sum::<f64>() / count;
        let right = within.iter().filter(|one| one.is_right).count() as f64 / count;
        println!(
            "| {:.0} to {:.0} % | {count} | {:.1} % | {:.1} % |",
            100.0 * low,
            100.0 * f64::min(high, 1.0),
            100.0 * mean,
            100.0 * right
        );
    }
}

fn by_kind(all: &[Said]) {
    println!(
        "\n| kind | faults | first class | first three | place | mean said |\n|---|---|---|---|---|---|"
    );
    for kind in Kind::ALL {
        let of: Vec<&Said> = all.iter().filter(|one| one.kind == *kind).collect();
        if of.is_empty() {
            continue;
        }
        let mean = |value: &dyn Fn(&Said) -> f64| {
            100.0 * of.iter().map(|one| value(one)).sum::<f64>() / of.len() as f64
        };
        println!(
            "| {} | {} | {:.1} % | {:.1} % | {:.1} % | {:.1} % |",
            kind.name(),
            of.len(),
            mean(&|one| f64::from(u8::from(one.is_right))),
            mean(&|one| f64::from(u8::from(one.is_in_three))),
            mean(&|one| f64::from(u8::from(one.is_place))),
            mean(&|one| one.first),
        );
    }
}

fn row(site: &str, policy: &str, said: &[Said]) {
    let count = said.len() as f64;
    let mean = |of: &dyn Fn(&Said) -> f64| said.iter().map(of).sum::<f64>() / count;
    let percent = |of: &dyn Fn(&Said) -> bool| 100.0 * mean(&|one| f64::from(u8::from(of(one))));
    let brier = mean(&|one| (one.first - f64::from(u8::from(one.is_right))).powi(2));
    let mut sizes: Vec<usize> = said.iter().map(|one| one.class_size).collect();
    sizes.sort_unstable();
    println!(
        "| {site} | {policy} | {count} | {:.1} % | {:.1} % | {:.1} % | {:.1} % | {brier:.3} | {} | {:.1} | {:.1} | {:.1} |",
        percent(&|one| one.is_right),
        percent(&|one| one.is_in_three),
        percent(&|one| one.is_place),
        percent(&|one| one.is_single),
        sizes.get(sizes.len() / 2).copied().unwrap_or(0),
        mean(&|one| one.readings as f64),
        mean(&|one| one.halving),
        mean(&|one| one.walking),
    );
}

/// Voltages at random stations and currents of random sources, in standby by day.
fn random_readings(plant: &Plant<'_>, dice: &mut Dice, count: usize) -> Vec<Quantity> {
    let stations = plant.site.stations.len();
    let sources = plant.layout.stages.len();
    (0..count)
        .map(|number| {
            let state = StateKind::StandbyDay.into();
            if number % 5 == 0 {
                let stage = ((dice.uniform() * sources as f64) as usize).min(sources - 1);
                let at = match plant.layout.stages[stage].source {
                    StageSource::Supply(index) => ReadingPlace::Supply(index),
                    StageSource::Regenerator(index) => ReadingPlace::BoxOutput(index),
                };
                Quantity::Current { at, state }
            } else {
                let station = ((dice.uniform() * stations as f64) as usize).min(stations - 1);
                Quantity::Voltage { at: ReadingPlace::Station(station), state }
            }
        })
        .collect()
}

fn one(plant: &Plant<'_>, causes: &[Hypothesis], rates: &Rates, seed: u64, policy: &str) -> Option<Said> {
    let hidden = hide(plant, causes, seed)?;
    let options = Options::default();
    let (evidence, readings) = if policy == "random" {
        let mut dice = Dice::new(seed ^ 0x5eed);
        let mut evidence = Evidence::default();
        for quantity in random_readings(plant, &mut dice, RANDOM_READINGS) {
            if !evidence.measured.iter().any(|one| one.quantity == quantity) {
                evidence.measured.extend(hidden.answer(&quantity));
            }
        }
        let count = evidence.measured.len();
        (evidence, count)
    } else {
        let course = best_course(plant, &hidden, Evidence::default(), rates, &options, MOST_READINGS);
        (course.evidence, course.readings)
    };
    let found = locate(plant, &evidence, rates, &Options { confidence: 0.0, ..options });
    let truth = hidden.cause.cause;
    let holds = |class: usize| {
        found
            .classes
            .get(class)
            .is_some_and(|class| class.members.iter().any(|place| found.cause(*place).0.cause == truth))
    };
    let is_single = !found.ranking.causes.is_empty() && found.cause(0).0.cause == truth;
    let is_place = !found.ranking.causes.is_empty() && is_same_place(plant, &found, truth.element);
    let sections = way(plant, &hidden.cause) as f64;
    let missed = (!holds(0)).then(|| {
        let said = |place: usize| {
            let (one, posterior) = found.cause(place);
            format!(
                "{} {} {:.3}",
                one.cause.kind.name(),
                one.cause.element.name(plant.site),
                posterior.probability
            )
        };
        let given = (0..found.ranking.causes.len()).find(|place| found.cause(*place).0.cause == truth);
        format!(
            "{} {} size {:.3}; said {} ({:.3} in {}); given {}; none {:.3}; read {}",
            truth.kind.name(),
            truth.element.name(plant.site),
            hidden.size,
            said(0),
            found.classes[0].probability,
            found.classes[0].members.len(),
            given.map_or_else(|| String::from("nothing"), said),
            found.ranking.none_of_these,
            evidence
                .measured
                .iter()
                .map(|one| format!("{} {:?} {:.4}", one.quantity.name(), one.quantity.place(), one.value))
                .collect::<Vec<_>>()
                .join(", ")
        )
    });
    Some(Said {
        kind: truth.kind,
        missed,
        first: found.classes.first().map_or(0.0, |class| class.probability),
        is_right: holds(0),
        is_in_three: (0..3).any(holds),
        is_single,
        is_place,
        class_size: found.classes.first().map_or(0, |class| class.members.len()),
        readings,
        halving: (sections + 1.0).log2().ceil(),
        walking: 0.5 * (sections + 1.0),
    })
}

/// The place of the most probable cause: the same element, run, or terminals.
fn is_same_place(plant: &Plant<'_>, found: &Located, truth: Element) -> bool {
    let said = found.cause(0).0.cause.element;
    said == truth
        || said.place(plant.site).is_some_and(|place| Some(place) == truth.place(plant.site))
        || (said.run().is_some() && said.run() == truth.run())
}

/// Sections between a source and the cause.
fn way(plant: &Plant<'_>, cause: &Hypothesis) -> usize {
    let Some(at) = cause.at else { return 1 };
    let stage = plant.layout.stage(at);
    let (mut node, mut count) = (at.node, 0);
    while node > 0 {
        count += 1;
        node = stage.parent[node] as usize;
    }
    count.max(1)
}
