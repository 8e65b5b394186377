//! `fix`.

use crate::row::sentences;

sentences! {
    /// What `fix` says beside findings and remedies.
    pub enum FixWords<'a> {
        Looking: "looking for what mends each finding" | "suche, was jeden Befund behebt",
        LookingForAll:
            "looking for what mends each finding, and checking the whole after each step"
            | "suche, was jeden Befund behebt, und prüfe nach jedem Schritt das Ganze",
        NothingToMend: "nothing to mend" | "nichts zu beheben",
        NoChange:
            "no change of the kinds that are tried mends this, alone or in a pair"
            | "keine der versuchten Änderungen behebt das, weder allein noch als Paar",
        NothingToWrite:
            "nothing to write: the site file has no key for it"
            | "nichts zu schreiben: Die Anlagendatei hat dafür keinen Schlüssel",
        NothingBeforeMeasured:
            "nothing to write before that is measured" | "nichts zu schreiben, bevor das gemessen ist",
        NothingLeft: "no error or warning is left" | "kein Fehler und keine Warnung ist übrig",
        Left:
            "left, because no change of the kinds that are tried mends it, alone or in a pair:"
            | "übrig, weil keine der versuchten Änderungen es behebt, weder allein noch als Paar:",
        Severity { severity: &'a str, finding: &'a str }: "{severity}: {finding}" | same,
        Written { file: &'a str }: "written to {file}" | "geschrieben nach {file}",
        NotWritten { file: &'a str }:
            "not written; add --write to change {file}"
            | "nicht geschrieben; mit --write wird {file} geändert",
    }
}
