//! The environment of the process: terminal, colour wishes, width. Read once.

use clap::ValueEnum;
use latchline_report::Look;
use std::cell::Cell;
use std::io::{IsTerminal, Write as _};
use std::rc::Rc;

/// Columns of a page when nothing says otherwise.
const USUAL_WIDTH: usize = 100;
/// A wider terminal is not filled: long lines are hard to read.
const WIDEST: usize = 132;
/// A narrower one is not believed.
const NARROWEST: usize = 40;

/// When to use colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set or TERM is dumb
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// What the process finds around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Surroundings {
    /// Whether standard output is a terminal.
    pub is_terminal: bool,
    /// Colour when nothing is asked for on the command line.
    pub usual_colour: bool,
    /// Columns of the page.
    pub width: usize,
    /// Whether who read standard output has gone.
    pub reader_is_gone: Rc<Cell<bool>>,
}

impl Surroundings {
    /// Reads environment and terminal.
    #[expect(clippy::disallowed_methods, reason = "the environment is read here and passed on")]
    pub fn read() -> Self {
        let is_terminal = std::io::stdout().is_terminal();
        let variable = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
        let columns = variable("COLUMNS").and_then(|columns| columns.parse().ok());
        let terminal = || {
            let (terminal_size::Width(columns), _) = terminal_size::terminal_size()?;
            is_terminal.then_some(usize::from(columns))
        };
        Self {
            is_terminal,
            usual_colour: usual_colour(is_terminal, variable),
            width: columns.or_else(terminal).unwrap_or(USUAL_WIDTH).clamp(NARROWEST, WIDEST),
            reader_is_gone: Rc::default(),
        }
    }

    /// Whether somebody sits at both ends, so that questions can be asked.
    pub fn is_dialogue(&self) -> bool {
        self.is_terminal && std::io::stdin().is_terminal()
    }

    /// Says on standard error, if someone watches it, what takes a while.
    pub fn working(&self, what: &str) {
        if std::io::stderr().is_terminal() {
            // Nobody is told if standard error is closed.
            let _ = writeln!(std::io::stderr(), "{what} ...");
        }
    }

    /// How a text is to look that goes to standard output, or else to a file.
    pub fn look(&self, colour: Colour, to_file: bool) -> Look {
        let colour = match colour {
            Colour::Auto => self.usual_colour && !to_file,
            Colour::Always => true,
            Colour::Never => false,
        };
        Look { colour, width: if to_file { USUAL_WIDTH } else { self.width }, ..Look::default() }
    }
}

/// Whether to use colour by the conventions of NO_COLOR, CLICOLOR, CLICOLOR_FORCE and TERM.
fn usual_colour(is_terminal: bool, variable: impl Fn(&str) -> Option<String>) -> bool {
    if variable("NO_COLOR").is_some() {
        return false;
    }
    if variable("CLICOLOR_FORCE").is_some_and(|value| value != "0") {
        return true;
    }
    let wanted = variable("CLICOLOR").is_none_or(|value| value != "0");
    is_terminal && wanted && variable("TERM").is_none_or(|term| term != "dumb")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn colour(is_terminal: bool, variables: &[(&str, &str)]) -> bool {
        usual_colour(is_terminal, |name| {
            let found = variables.iter().find(|(key, _)| *key == name);
            found.map(|(_, value)| (*value).to_string())
        })
    }

    #[test]
    fn colour_follows_the_conventions() {
        // Conventions: no-color.org, bixense.com/clicolors.
        assert!(colour(true, &[]));
        assert!(!colour(false, &[]));
        assert!(!colour(true, &[("NO_COLOR", "1")]));
        assert!(!colour(true, &[("NO_COLOR", "1"), ("CLICOLOR_FORCE", "1")]));
        assert!(colour(false, &[("CLICOLOR_FORCE", "1")]));
        assert!(!colour(false, &[("CLICOLOR_FORCE", "0")]));
        assert!(!colour(true, &[("CLICOLOR", "0")]));
        assert!(!colour(true, &[("TERM", "dumb")]));
    }
}
