//! Readings: as TOML, as comma-separated values and as words of a command line, held against the house, as `latchline locate` does.

use super::house::{LANGUAGES, house};
use latchline_locate::input::{Row, RowProblem, check, read_csv, read_item, read_toml};
use latchline_locate::{Options, Plant, Rates, locate};
use latchline_network::Layout;

/// Readings and symptoms up to which the fault is looked for: each costs a solve for each cause.
const MOST_LOCATED: usize = 4;

/// As a file in TOML.
pub fn toml(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    held(read_toml(text));
    if let Err(error) = Rates::read(text) {
        assert!(!format!("{error:?}").is_empty(), "it is told why");
    }
}

/// As a file of comma-separated values.
pub fn csv(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    held(read_csv(text));
}

/// As words of a command line, one a line.
pub fn line(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let mut read = (Vec::new(), Vec::new());
    for (number, item) in text.lines().enumerate() {
        match read_item(item, number + 1) {
            Ok(row) => read.0.push(row),
            Err(problem) => read.1.push(problem),
        }
    }
    held(read);
}

fn held((rows, problems): (Vec<Row>, Vec<RowProblem>)) {
    let site = house().site().expect("the house can be used");
    let layout = Layout::new(site);
    let plant = Plant::new(site, &layout);
    let checked = check(&plant, &rows);
    for problem in problems.iter().chain(&checked.problems) {
        for language in LANGUAGES {
            assert!(!problem.message.of(language).is_empty(), "it is told why");
        }
    }
    let told = checked.evidence.measured.len() + checked.evidence.symptoms.len();
    if (1..=MOST_LOCATED).contains(&told) {
        // Which reading to take next is reckoned from the causes, not from what was put in, and costs the most by far.
        let options = Options { confidence: 0.0, ..Options::default() };
        locate(&plant, &checked.evidence, &Rates::built_in(), &options);
    }
}
