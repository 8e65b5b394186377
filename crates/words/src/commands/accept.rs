//! `accept`.

use crate::row::sentences;

sentences! {
    /// What `accept` says.
    pub enum AcceptWords<'a> {
        Accepted { code: &'a str, element: Option<&'a str>, file: &'a str, findings: usize }:
            "accepted {code}< of {element}> in {file}: {findings:finding|findings}"
            | "{code}< von {element}> in {file} akzeptiert: {findings:Befund|Befunde}",
    }
}
