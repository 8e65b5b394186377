//! What is wrong with a plain file, in English as its keys are: such files come from programs, and the commands that read them speak no
//! other language.

use std::fmt;

/// What is wrong with a plain file, and where.
#[derive(Debug)]
pub struct PlainFault(pub String);

impl fmt::Display for PlainFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for PlainFault {}

/// What the reader of JSON says, with line and column.
impl From<serde_json::Error> for PlainFault {
    fn from(error: serde_json::Error) -> Self {
        PlainFault(error.to_string())
    }
}
