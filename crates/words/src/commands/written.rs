//! What every command says of a file that it wrote.

use crate::row::sentences;

sentences! {
    /// A file that was written, and what comes next.
    pub enum WrittenWords<'a> {
        Wrote { file: &'a str }: "wrote {file}" | "{file} geschrieben",
        NextCheck { file: &'a str }: "next: latchline check {file}" | "weiter: latchline check {file}",
    }
}
