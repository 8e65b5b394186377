//! Tests of the whole crate, on the worked example of the program.
#![allow(clippy::unwrap_used, reason = "tests may fail")]

mod courses;
mod dictionary;
mod found;
mod input;
mod promise;
mod published;
mod question;
mod rates;
mod smooth;
mod stories;

use latchline_finding::Sources;
use latchline_locate::input::{Checked, check, read_item};
use latchline_locate::{Located, Options, Plant, Rates, locate};
use latchline_network::Layout;
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};

/// The worked example.
fn demo() -> Site {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let site = sources.add("site.toml", include_str!("../../latchline/src/demo/site.toml"));
    resolve(&sources, site, &[catalogue]).site.unwrap()
}

/// Items of a command line, checked.
fn checked(plant: &Plant<'_>, items: &[&str]) -> Checked {
    let rows: Vec<_> =
        items.iter().enumerate().map(|(place, item)| read_item(item, place + 1).unwrap()).collect();
    check(plant, &rows)
}

/// Runs what a test asks on the worked example.
fn with_demo<T>(ask: impl FnOnce(&Plant<'_>) -> T) -> T {
    let site = demo();
    let layout = Layout::new(&site);
    ask(&Plant::new(&site, &layout))
}

/// What these items say.
fn located(plant: &Plant<'_>, items: &[&str]) -> Located {
    let checked = checked(plant, items);
    assert!(checked.problems.is_empty(), "{:?}", checked.problems);
    locate(plant, &checked.evidence, &Rates::built_in(), &Options::default())
}
