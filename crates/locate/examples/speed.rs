//! How long an answer takes: processor time of ranking alone and with the next reading, over faults that are hidden in a site.
//!
//! `speed FAULTS SEED SITE.toml[,CATALOGUE.toml] ...` takes one current and four voltages of every fault. With `--answers` it prints what was
//! said as well: the ten likeliest causes, the sizes of the classes and the reading proposed, to hold two versions of the program against each other.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a program for measuring"
)]

use latchline_finding::{Sources, StateKind};
use latchline_locate::practise::{Dice, hide};
use latchline_locate::{
    Age, Evidence, Located, Options, Plant, Quantity, Rates, hypotheses, locate, written,
};
use latchline_network::readings::ReadingPlace;
use latchline_network::{Layout, StageSource};
use latchline_site::{builtin_catalogue, resolve};

/// Voltages that are read of every fault, besides the current out of the first supply.
const VOLTAGES: usize = 4;

fn main() {
    let mut arguments: Vec<String> = std::env::args().skip(1).collect();
    let is_told = arguments.iter().any(|one| one == "--answers");
    arguments.retain(|one| one != "--answers");
    let (faults, seed): (u64, u64) = (arguments[0].parse().unwrap(), arguments[1].parse().unwrap());
    println!(
        "| site | stations | causes | ranked: median | ranked: most | with next reading: median | with next reading: most |"
    );
    println!("|---|---|---|---|---|---|---|");
    for files in &arguments[2..] {
        measure(files, faults, seed, is_told);
    }
}

fn measure(files: &str, faults: u64, seed: u64, is_told: bool) {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let mut catalogues = vec![sources.add(name, text)];
    let mut names = files.split(',');
    let read = |name: &str| std::fs::read_to_string(name).unwrap();
    let path = names.next().unwrap();
    let file = sources.add(path, read(path));
    catalogues.extend(names.map(|name| sources.add(name, read(name))));
    let site = resolve(&sources, file, &catalogues).site.unwrap();
    let layout = Layout::new(&site);
    let plant = Plant::new(&site, &layout);
    let rates = Rates::built_in();
    let causes = hypotheses(&plant, &rates, Age::InService);
    let (mut ranked_s, mut whole_s) = (Vec::new(), Vec::new());
    for number in 0..faults {
        let hidden = hide(&plant, &causes, seed * 1_000_003 + number).unwrap();
        let mut dice = Dice::new(seed ^ number);
        let evidence = Evidence {
            measured: readings(&plant, &mut dice).iter().filter_map(|one| hidden.answer(one)).collect(),
            ..Evidence::default()
        };
        let timed = |confidence: f64| -> (Located, f64) {
            let begun_s = processor_s();
            let found = locate(&plant, &evidence, &rates, &Options { confidence, ..Options::default() });
            (found, processor_s() - begun_s)
        };
        ranked_s.push(timed(0.0).1);
        let (found, took_s) = timed(1.0);
        whole_s.push(took_s);
        if is_told {
            tell(&plant, number, &found, &hidden.cause.cause.kind.name());
        }
    }
    let row = |times: &mut Vec<f64>| {
        times.sort_by(f64::total_cmp);
        format!("{:.0} ms | {:.0} ms", 1e3 * times[times.len() / 2], 1e3 * times[times.len() - 1])
    };
    println!(
        "| {} | {} | {} | {} | {} |",
        path.rsplit('/').next().unwrap(),
        site.stations.len(),
        causes.len(),
        row(&mut ranked_s),
        row(&mut whole_s)
    );
}

/// The current out of the first supply and voltages at random stations, in standby by day.
fn readings(plant: &Plant<'_>, dice: &mut Dice) -> Vec<Quantity> {
    let state = || StateKind::StandbyDay.into();
    let StageSource::Supply(first) = plant.layout.stages[0].source else { return Vec::new() };
    let mut list = vec![Quantity::Current { at: ReadingPlace::Supply(first), state: state() }];
    while list.len() <= VOLTAGES {
        let station = (dice.uniform() * plant.site.stations.len() as f64) as usize;
        let voltage = Quantity::Voltage { at: ReadingPlace::Station(station), state: state() };
        if !list.contains(&voltage) {
            list.push(voltage);
        }
    }
    list
}

fn tell(plant: &Plant<'_>, number: u64, found: &Located, hidden: &str) {
    println!("# {number} {hidden}: none of these {:.4}", found.ranking.none_of_these);
    for place in 0..found.ranking.causes.len().min(10) {
        let (hypothesis, posterior) = found.cause(place);
        let size = posterior.size.map_or(0.0, |size| size.best);
        println!(
            "# {number}   {:.4} {} {} {size:.3}",
            posterior.probability,
            hypothesis.cause.kind.name(),
            hypothesis.cause.element.name(plant.site)
        );
    }
    let sizes: Vec<String> = found
        .classes
        .iter()
        .take(3)
        .map(|class| format!("{} ({:.3})", class.members.len(), class.probability))
        .collect();
    let next = found.next.as_ref().map_or(String::new(), |next| written(plant, &next.quantity));
    println!("# {number}   classes {}; next {next}", sizes.join(", "));
}

/// Processor time of all threads of this process so far, in seconds.
fn processor_s() -> f64 {
    let of = |task: std::fs::DirEntry| -> f64 {
        let text = std::fs::read_to_string(task.path().join("schedstat")).unwrap_or_default();
        text.split(' ').next().and_then(|first| first.parse().ok()).unwrap_or(0.0)
    };
    std::fs::read_dir("/proc/self/task").unwrap().flatten().map(of).sum::<f64>() * 1e-9
}
