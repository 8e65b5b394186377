//! `phone`.

use crate::row::sentences;

sentences! {
    /// What `phone` says of the file that it wrote.
    pub enum PhoneWords<'a> {
        Wrote { file: &'a str, steps: usize, kilobytes: usize }:
            "wrote {file}: {steps:step|steps}, {kilobytes} kB; send it to the phone and open it there"
            | "{file} geschrieben: {steps:Schritt|Schritte}, {kilobytes} kB; auf das Telefon schicken und dort öffnen",
    }
}
