//! What was given and cannot be used.

use latchline_locate::input::RowProblem;

/// A problem with the file that it is in; `None` for the command line.
pub(super) type Unusable = (Option<String>, RowProblem);
