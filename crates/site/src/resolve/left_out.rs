//! What of the wiring was refused, so that what hangs on it is not told as a mistake of its own.
//!
//! A run with a wrong start still says what it reaches, and a wrong name at its end is most likely that of the thing that nothing reaches. What
//! remains is not wired, and told at once with the other mistakes.

use crate::model::RunStop;
use crate::parse::{Record, Value};
use crate::ranges;
use latchline_finding::{ElementId, Origin};

/// A run whose start was refused, with what it reaches.
pub(super) struct Headless {
    pub run: ElementId,
    pub stops: Vec<(RunStop, Origin)>,
}

/// What of the wiring was refused.
#[derive(Default)]
pub(super) struct LeftOut {
    /// Whether something was refused of which nobody can say what it would have reached.
    pub is_open: bool,
    /// Names at the ends of runs that nothing has.
    pub unknown: Vec<String>,
    pub headless: Vec<Headless>,
}

impl LeftOut {
    /// Notes what was refused of a run: the names that nothing has, and what it reaches if it has no start.
    pub fn note(
        &mut self,
        run: &str,
        record: &Record<'_>,
        has_start: bool,
        stops: &[(Option<RunStop>, Origin)],
    ) {
        self.is_open |= stops.is_empty();
        for (_, origin) in stops.iter().filter(|(stop, _)| stop.is_none()) {
            let list = record.list("to");
            let item = list.iter().find(|item| record.at(&item.span) == *origin);
            match item.map(|item| &item.value) {
                Some(Value::Text(written)) if ranges::stops(written).is_none() => {
                    self.unknown.push(written.to_string());
                }
                _ => self.is_open = true,
            }
        }
        if !has_start {
            let reached = stops.iter().filter_map(|(stop, origin)| Some(((*stop)?, origin.clone())));
            self.headless.push(Headless { run: ElementId::new(run), stops: reached.collect() });
        }
    }
}
