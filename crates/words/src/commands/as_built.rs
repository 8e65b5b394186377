//! `as-built`.

use crate::row::sentences;

sentences! {
    /// What `as-built` says.
    pub enum AsBuiltWords<'a> {
        Head { site: &'a str, revision: &'a str, corrections: usize }:
            "{site}, revision {revision}: {corrections:reading corrects|readings correct} the site file."
            | "{site}, Stand {revision}: {corrections:Messwert berichtigt|Messwerte berichtigen} die Anlagendatei.",
        Nothing { site: &'a str, revision: &'a str }:
            "{site}, revision {revision}: no reading corrects the site file; what was measured is within what was predicted, or only fault finding can use it."
            | "{site}, Stand {revision}: Kein Messwert berichtigt die Anlagendatei; was gemessen wurde, liegt im vorhergesagten Bereich, oder nur die Fehlersuche kann es brauchen.",
        Sets { path: &'a str, value: &'a str }: "{path} = \"{value}\"" | "{path} = \"{value}\"",
        Left { count: usize }:
            "Out of range, and nothing that the site file takes: look for a fault with latchline locate ({count})"
            | "Außerhalb des Bereichs, und nichts, was die Anlagendatei aufnimmt: mit latchline locate nach einem Fehler suchen ({count})",
        OtherRevision { count: usize }:
            "Not used, since it was made for another revision of the plan: {count:reading|readings}."
            | "Nicht verwendet, da für einen anderen Stand des Plans: {count:Messwert|Messwerte}.",
        Unsettled { count: usize }:
            "Not used, since two phones read differently: {count:step|steps}. Decide or read again; latchline readings lists them."
            | "Nicht verwendet, da zwei Telefone Verschiedenes messen: {count:Schritt|Schritte}. Entscheiden oder neu messen; latchline readings zählt sie auf.",
        Disagree { path: &'a str }:
            "{path} was read with different values; none of them is written: read it again"
            | "{path} wurde mit verschiedenen Werten gemessen; keiner wird geschrieben: noch einmal messen",
        CauseFirst:
            "A reading far out of its range is a fault more often than a different cable: find it and read again before it becomes what was built."
            | "Ein Messwert weit außerhalb seines Bereichs ist öfter ein Fehler als ein anderes Kabel: erst suchen und neu messen, dann gilt er als gebaut.",
        NotWritten { command: &'a str }: "Nothing was written. To write it: {command}" | "Nichts wurde geschrieben. Zum Schreiben: {command}",
        BookHead { site: &'a str, file: &'a str, count: usize }:
            "{site}: {count:entry|entries} of {file} tell what was built otherwise than planned."
            | "{site}: {count:Eintrag|Einträge} in {file} sagen, was anders gebaut wurde als geplant.",
        BookNothing { site: &'a str, file: &'a str }:
            "{site}: nothing in {file} says that something was built otherwise than planned."
            | "{site}: Nichts in {file} sagt, dass etwas anders gebaut wurde als geplant.",
        BookSets: "In the site file:" | "In der Anlagendatei:",
        BookWithin: "Within what the plan allows, so taken over with --every only:" | "Innerhalb dessen, was der Plan zulässt, daher nur mit --every übernommen:",
        BookByHand: "To be decided, since no single key of the site file follows from it:" | "Zu entscheiden, weil daraus kein einzelner Schlüssel der Anlagendatei folgt:",
        BookNoted { count: usize }:
            "Kept in the workbook, since the site file has no key for it (pair and colour used, serial number, version): {count:entry|entries}."
            | "Bleibt in der Arbeitsmappe, weil die Anlagendatei keinen Schlüssel dafür hat (benutztes Paar, benutzte Farbe, Seriennummer, Version): {count:Eintrag|Einträge}.",
        BookReadings { count: usize }:
            "Not looked at: {count:reading|readings} of the commissioning sheets. Readings are taken over from the files of the phones."
            | "Nicht betrachtet: {count:Messwert|Messwerte} der Inbetriebnahmeblätter. Messwerte werden aus den Dateien der Telefone übernommen.",
        BookLost { count: usize }:
            "Of rows that this plan does not have: {count:entry|entries}. latchline pack lists them."
            | "Aus Zeilen, die dieser Plan nicht hat: {count:Eintrag|Einträge}. latchline pack zählt sie auf.",
        Written { file: &'a str }:
            "Written to {file}. That is another revision: entries on phones belong to the one before, so export them first, then make a new page with latchline phone."
            | "In {file} geschrieben. Das ist ein anderer Stand: Einträge auf Telefonen gehören zum vorigen, also zuerst ausgeben, dann mit latchline phone eine neue Seite machen.",
    }
}
