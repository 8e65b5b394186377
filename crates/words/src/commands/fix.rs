//! `fix`.

use crate::row::sentences;

sentences! {
    /// What `fix` says beside findings and remedies.
    pub enum FixWords<'a> {
        Looking: "looking for what mends each finding" | "suche, was jeden Befund behebt",
        LookingForAll:
            "looking for what mends each finding, and checking the whole after each step"
            | "suche, was jeden Befund behebt, und prüfe nach jedem Schritt das Ganze",
        ListHead { file: &'a str }:
            "Findings F1, F2, ... one by one, each with what mends it: latchline fix {file} --finding F1. The jobs J1, J2, ... of check take together what one change mends: latchline fix {file} --job J1. Where a finding has several changes, its second is --finding F1 --remedy 2."
            | "Befunde F1, F2, ... einzeln, jeder mit dem, was ihn behebt: latchline fix {file} --finding F1. Die Aufgaben J1, J2, ... von check fassen zusammen, was eine Änderung behebt: latchline fix {file} --job J1. Hat ein Befund mehrere Änderungen, ist die zweite --finding F1 --remedy 2.",
        Change { number: usize }: "change {number}:" | "Änderung {number}:",
        NothingToMend: "nothing to mend" | "nichts zu beheben",
        NotAllJudged { things: usize, file: &'a str }:
            "nothing to mend in what was judged; {things:thing was|things were} not judged: latchline check {file}"
            | "nichts zu beheben an dem, was beurteilt ist; nicht beurteilt: {things:Sache|Sachen}, siehe latchline check {file}",
        NoChange:
            "no change or pair of changes is known that mends this"
            | "keine Änderung und kein Paar von Änderungen ist bekannt, das dies behebt",
        ByJob { job: usize, change: &'a str, file: &'a str }:
            "job J{job} of check mends it: {change}: latchline fix {file} --job J{job}"
            | "die Aufgabe J{job} von check behebt das: {change}: latchline fix {file} --job J{job}",
        ByJobInOrder { job: usize, change: &'a str }:
            "job J{job} of check mends it, once the jobs before it are done: {change}"
            | "die Aufgabe J{job} von check behebt das, sind die davor erledigt: {change}",
        LookFirst { hint: &'a str }:
            "first {hint}; only if that is not it:" | "zuerst: {hint}; nur wenn es das nicht ist:",
        OtherThanListed { change: &'a str }:
            "The list of check reckons this job with those before it done: {change}. On the site as it is it takes:"
            | "Die Liste von check rechnet diese Aufgabe, wenn die davor erledigt sind: {change}. An der Anlage, wie sie ist, braucht es:",
        AsItIsNow:
            "On the site as it is; once the jobs before it are done, no change that was tried mends it."
            | "An der Anlage, wie sie ist; sind die Aufgaben davor erledigt, behebt es keine versuchte Änderung.",
        NothingTried:
            "nothing was tried: it is for whoever plans to decide"
            | "nichts wurde versucht: Das entscheidet, wer plant",
        TriedNotPossible { kind: &'a str, edit: &'a str }:
            "tried: {kind} ({edit}): that cannot be done here"
            | "versucht: {kind} ({edit}): geht hier nicht",
        TriedNotJudged { kind: &'a str, edit: &'a str }:
            "tried: {kind} ({edit}): it goes, but something else can then not be judged"
            | "versucht: {kind} ({edit}): behebt es, aber anderes ist dann nicht zu beurteilen",
        TriedStays { kind: &'a str, edit: &'a str, value: Option<&'a str> }:
            "tried: {kind} ({edit}): not enough<, it comes to {value}>"
            | "versucht: {kind} ({edit}): reicht nicht<, es kommt auf {value}>",
        TriedBrings { kind: &'a str, edit: &'a str, brought: &'a str, more: Option<usize> }:
            "tried: {kind} ({edit}): mends it, but brings: {brought}<; and {more} more>"
            | "versucht: {kind} ({edit}): behebt es, bringt aber: {brought}<; und {more} weitere>",
        TriedLeaves { kind: &'a str, edit: &'a str, left: &'a str, more: Option<usize> }:
            "tried: {kind} ({edit}): mends it, but leaves what the collapse hides: {left}<; and {more} more>"
            | "versucht: {kind} ({edit}): behebt es, lässt aber, was der Zusammenbruch verdeckt: {left}<; und {more} weitere>",
        Brought { title: &'a str, at: Option<&'a str> }: "{title}< ({at})>" | same,
        TriedMore { changes: usize }:
            "and {changes:more change|more changes} that do not do either"
            | "und {changes:weitere Änderung|weitere Änderungen}, die auch nicht genügen",
        NothingToWrite:
            "nothing to write: the site file cannot state it"
            | "nichts zu schreiben: Die Anlagendatei kann es nicht angeben",
        NothingBeforeMeasured:
            "nothing to write before that is measured" | "nichts zu schreiben, bevor das gemessen ist",
        Dropped:
            "left out again, since the others do without it:"
            | "wieder weggelassen, da die anderen ohne sie auskommen:",
        NothingLeft: "no error or warning is left" | "kein Fehler und keine Warnung ist übrig",
        Left:
            "left, since no change or pair of changes that was tried mends it:"
            | "übrig, da keine versuchte Änderung und kein versuchtes Paar es behebt:",
        Severity { severity: &'a str, finding: &'a str }: "{severity}: {finding}" | same,
        Written { file: &'a str }: "written to {file}" | "geschrieben nach {file}",
        NotWritten { file: &'a str }:
            "not written; add --write to change {file}"
            | "nicht geschrieben; mit --write wird {file} geändert",
    }
}
