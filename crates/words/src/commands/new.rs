//! `new`.

use crate::row::sentences;

sentences! {
    /// What `new` says of the files that it wrote.
    pub enum NewWords<'a> {
        NextDesign { file: &'a str }:
            "next: fill it in, then latchline design {file} -o site.toml"
            | "weiter: ausfüllen, dann latchline design {file} -o site.toml",
    }
}
