//! What the address of the page says: items as on the command line, one a line, and one more from each form.

use super::super::shell::encoded;
use latchline_finding::Language;
use latchline_locate::input::{Row, check, read_item};
use latchline_locate::{Age, Evidence, Plant};
use serde::Deserialize;

/// Items that are taken, at most, and the length of one in bytes: far more than anybody reads in a day.
const MOST_ITEMS: usize = 60;
const LONGEST_ITEM: usize = 200;

/// The query.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Asked {
    /// What was known before, one item a line.
    given: String,
    /// Which line of it is left out.
    without: String,
    /// Of which station something is told, and what.
    told_at: String,
    told: String,
    /// What was read: where, in which state, of whose call, the figure with its unit, and how.
    at: String,
    pub(super) state: String,
    of: String,
    value: String,
    taken: String,
    /// The proposed reading as it is written, and its figure.
    next: String,
    next_value: String,
    /// Whether it was installed within the month.
    pub(super) age: String,
}

/// What is known, and what could not be used.
pub(super) struct Known {
    /// Items that can be used, as they are written.
    pub items: Vec<String>,
    pub evidence: Evidence,
    /// Why others cannot.
    pub problems: Vec<String>,
}

impl Asked {
    pub(super) fn age(&self) -> Age {
        match self.age.as_str() {
            "first-month" => Age::FirstMonth,
            _ => Age::InService,
        }
    }

    /// All items, those of the forms last.
    fn items(&self) -> Vec<String> {
        let without = self.without.parse::<usize>().ok();
        let given = self.given.lines().map(str::trim).filter(|line| !line.is_empty());
        let given = given.enumerate().filter(|(line, _)| Some(*line) != without);
        let mut items: Vec<String> = given.map(|(_, item)| item.to_string()).collect();
        let filled = |text: &str| Some(text.trim().to_string()).filter(|text| !text.is_empty());
        if let (Some(at), Some(told)) = (filled(&self.told_at), filled(&self.told)) {
            items.push(format!("{at}={told}"));
        }
        if let (Some(at), Some(value)) = (filled(&self.at), filled(&self.value)) {
            let state = filled(&self.state).map_or(String::new(), |state| {
                let of = filled(&self.of).filter(|of| *of != at);
                of.map_or_else(|| format!("@{state}"), |of| format!("@{state}:{of}"))
            });
            let taken = filled(&self.taken).map_or(String::new(), |taken| format!(",{taken}"));
            items.push(format!("{at}{state}={}{taken}", without_spaces(&value)));
        }
        if let (Some(next), Some(value)) = (filled(&self.next), filled(&self.next_value)) {
            items.push(format!("{next}={}", without_spaces(&value)));
        }
        items
    }
}

/// "33,5 V" as it is written on the command line: "33.5V".
fn without_spaces(value: &str) -> String {
    let close: String = value.chars().filter(|sign| !sign.is_whitespace()).collect();
    // A comma behind which a figure goes on is that of a decimal; behind the unit stands how it was read.
    let mut out = String::with_capacity(close.len());
    let mut signs = close.chars().peekable();
    while let Some(sign) = signs.next() {
        let is_decimal = sign == ',' && signs.peek().is_some_and(char::is_ascii_digit);
        out.push(if is_decimal { '.' } else { sign });
    }
    out
}

impl Known {
    /// Checks every item; what cannot be used is told and left out.
    pub fn of(plant: &Plant<'_>, asked: &Asked, language: Language) -> Known {
        let mut known = Known { items: Vec::new(), evidence: Evidence::default(), problems: Vec::new() };
        let mut rows: Vec<Row> = Vec::new();
        let mut written: Vec<String> = Vec::new();
        let shown = |text: &str| latchline_finding::shown::prose(text).into_owned();
        for item in asked.items().into_iter().filter(|item| item.len() <= LONGEST_ITEM).take(MOST_ITEMS) {
            match read_item(&item, rows.len() + 1) {
                Ok(row) => {
                    rows.push(row);
                    written.push(item);
                }
                Err(problem) => known.problems.push(shown(problem.message.of(language))),
            }
        }
        let checked = check(plant, &rows);
        known.problems.extend(checked.problems.iter().map(|problem| shown(problem.message.of(language))));
        let is_bad = |line: usize| checked.problems.iter().any(|problem| problem.line == line);
        known.items = written
            .into_iter()
            .enumerate()
            .filter(|(row, _)| !is_bad(row + 1))
            .map(|(_, item)| item)
            .collect();
        known.evidence = checked.evidence;
        known
    }

    /// The items as the next address has them.
    pub fn given(&self) -> String {
        self.items.join("\n")
    }

    /// The address of this page with all that is known.
    pub fn address(&self, site: &str, asked: &Asked) -> String {
        format!("{site}/fault?given={}&age={}", encoded(&self.given()), encoded(&asked.age))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_add_one_item_each() {
        let asked = Asked {
            given: String::from("A-12=dead\n\n A-11=47V \n"),
            without: String::from("1"),
            told_at: String::from("A-15"),
            told: String::from("restarts"),
            at: String::from("A-15"),
            state: String::from("ringing"),
            of: String::from("A-15"),
            value: String::from("33,5 V"),
            taken: String::from("least-held"),
            next: String::from("A-D2.2..A-14"),
            next_value: String::from("0.06 V"),
            ..Asked::default()
        };
        let wanted = ["A-12=dead", "A-15=restarts", "A-15@ringing=33.5V,least-held", "A-D2.2..A-14=0.06V"];
        assert_eq!(asked.items(), wanted);
        let other = Asked {
            at: String::from("A-15"),
            state: String::from("ringing"),
            of: String::from("A-11"),
            value: String::from("40V"),
            ..Asked::default()
        };
        assert_eq!(other.items(), ["A-15@ringing:A-11=40V"]);
        assert!(Asked { at: String::from("A-15"), ..Asked::default() }.items().is_empty());
    }
}
