//! What one edit of a large site costs, in processor time of this process, stage by stage.
//!
//! Each line is the mean over edits that give a run other lengths, each new to the session; before each everything is in. Beside it the
//! same asked as a whole process does it: read, resolved and worked out with nothing remembered.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a program of its own that reads a site and prints figures"
)]

use latchline_assess::stage::Stage;
use latchline_finding::{Edit, Sources};
use latchline_session::{Files, Session};
use latchline_site::{ParsedSite, builtin_catalogue};
use rustix::time::{ClockId, clock_gettime};
use std::collections::BTreeMap;
use std::path::Path;

/// Edits that are timed.
const EDITS: usize = 20;

/// Processor time of this process and all its threads, in milliseconds.
fn processor_ms() -> f64 {
    let time = clock_gettime(ClockId::ProcessCPUTime);
    time.tv_sec as f64 * 1e3 + time.tv_nsec as f64 / 1e6
}

fn timed(work: impl FnOnce()) -> f64 {
    let before = processor_ms();
    work();
    processor_ms() - before
}

fn files(path: &Path) -> Files {
    let mut sources = Sources::new();
    let text = std::fs::read_to_string(path).expect("the site file can be read");
    let site_file = sources.add(path.display().to_string(), text);
    let site = sources.file(site_file).clone();
    let (name, text) = builtin_catalogue();
    let catalogues = vec![sources.add(name, text)];
    let mut named_files = BTreeMap::new();
    for named in ParsedSite::new(site_file, &site).catalogue_paths() {
        let file = path.parent().unwrap_or(Path::new("")).join(&named.value);
        let text = std::fs::read_to_string(file).expect("a catalogue can be read");
        named_files.insert(named.value.clone(), sources.add(named.value, text));
    }
    Files { sources, site_file, catalogues, named: named_files }
}

/// An edit that makes a run a little longer, another one each time.
fn longer(session: &Session, round: usize) -> Edit {
    let view = session.view();
    let site = view.site().expect("the site holds");
    // The runs of a chain of flats: their rows say how far the first is.
    let is_chain = |id: &str| {
        view.text().lines().any(|line| line.starts_with(&format!("{id} = ")) && line.contains("first = "))
    };
    let runs: Vec<_> =
        site.runs.iter().filter(|run| run.sections.len() > 4 && is_chain(run.id.as_str())).collect();
    let run = runs[round * 7 % runs.len()];
    let metres = run.sections[0].length.value.as_metres() + 0.1;
    Edit::set(&["runs", run.id.as_str(), "first"], format!("\"{metres:.1} m\""))
}

fn whole(session: &Session) {
    session.view().assessment().expect("nobody else edits").expect("the site can be used");
}

fn main() {
    let Some(path) = std::env::args().nth(1).filter(|argument| !argument.starts_with("--")) else {
        println!("name a site file: cargo bench -p latchline-session --bench edit -- SITE");
        return;
    };
    let files = files(Path::new(&path));
    let mut session = Session::new(files.clone());
    whole(&session);
    {
        let view = session.view();
        let site = view.site().expect("the site can be used");
        let signal = view.signal().expect("nobody else edits").expect("the site can be used");
        println!(
            "{} stations, {} supplies, {} runs, {} callers, {} signal networks, {} bands",
            site.stations.len(),
            site.supplies.len(),
            site.runs.len(),
            site.entrances.len() + site.management.len(),
            signal.signal.feeds.len(),
            signal.signal.bands.len(),
        );
    }
    let mut lines: Vec<(&str, Vec<f64>)> = vec![
        ("edit, read and resolved", Vec::new()),
        ("voltages, currents and their rules", Vec::new()),
        ("short circuits and their rules", Vec::new()),
        ("signals and their rules", Vec::new()),
        ("power return and its rules", Vec::new()),
        ("put together: sheets, counts in hand", Vec::new()),
        ("asked again, nothing changed", Vec::new()),
        ("set to what it is, asked again", Vec::new()),
        ("taken back, asked again", Vec::new()),
    ];
    for round in 0..EDITS {
        let edit = longer(&session, round);
        let mut note = |line: usize, ms: f64| lines[line].1.push(ms);
        note(0, timed(|| assert!(session.edit(&edit).is_ok())));
        let view = session.view();
        for (line, stage) in
            [Stage::Voltages, Stage::ShortCircuit, Stage::Signal, Stage::StartUp].iter().enumerate()
        {
            note(
                line + 1,
                timed(|| {
                    match stage {
                        Stage::Voltages => drop(view.voltages()),
                        Stage::ShortCircuit => drop(view.short_circuit()),
                        Stage::Signal => drop(view.signal()),
                        Stage::StartUp => drop(view.start_up()),
                    }
                    view.rules();
                }),
            );
        }
        note(5, timed(|| whole(&session)));
        note(6, timed(|| whole(&session)));
        note(
            7,
            timed(|| {
                session.edit(&edit).expect("the edit fits");
                whole(&session);
            }),
        );
        let taken_back = timed(|| {
            session.undo();
            session.undo();
            whole(&session);
        });
        note(8, taken_back);
        session.redo();
        session.redo();
    }
    let mut sum = 0.0;
    for (line, (name, times)) in lines.iter().enumerate() {
        let mean = times.iter().sum::<f64>() / times.len() as f64;
        if line < 6 {
            sum += mean;
        }
        println!("{name:40} {mean:8.2} ms");
        if line == 1 {
            println!("{:40} {sum:8.2} ms", "= one edit to voltages and their rules");
        }
        if line == 5 {
            println!("{:40} {sum:8.2} ms", "= one edit to everything but remedies");
        }
    }
    let fresh: f64 = (0..3)
        .map(|_| {
            timed(|| {
                let session = Session::new(files.clone());
                whole(&session);
            })
        })
        .sum();
    println!("{:40} {:8.2} ms", "anew, with nothing remembered", fresh / 3.0);
}
