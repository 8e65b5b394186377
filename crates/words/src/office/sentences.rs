//! Sentences of the office page.

use crate::row::sentences;

sentences! {
    /// What is said of a site, an edit or an answer.
    pub enum Told<'a> {
        // The verdict. Nothing pending looks clean.
        Unusable { errors: usize }:
            "Cannot be used ({errors:mistake|mistakes} in the text)"
            | "Nicht verwendbar ({errors:Fehler|Fehler} im Text)",
        FailsSoFar { errors: usize, pending: &'a str }:
            "Fails (at least {errors}; still checking {pending})"
            | "Nicht eingehalten (mindestens {errors}; geprüft wird noch: {pending})",
        NotFinished { pending: &'a str }:
            "Not finished (still checking {pending})"
            | "Nicht fertig (geprüft wird noch: {pending})",
        Fails { errors: usize }: "Fails ({errors})" | "Nicht eingehalten ({errors})",
        FailsAsAccepted { errors: usize }:
            "Fails, with every error accepted ({errors})"
            | "Nicht eingehalten, jeder Fehler akzeptiert ({errors})",
        NotJudged { things: usize }:
            "Nothing failed, but not all was judged ({things})"
            | "Nichts verletzt, aber nicht alles beurteilt ({things})",
        HoldsOnGuesses { guesses: usize }:
            "Holds, on {guesses:assumed value|assumed values}"
            | "Eingehalten, auf Grundlage von {guesses:Annahme|Annahmen}",
        Holds: "Holds" | "Eingehalten",
        And { one: &'a str, other: &'a str }: "{one} and {other}" | "{one} und {other}",
        TightestIs { device: &'a str, voltage: &'a str, limit: &'a str, state: &'a str }:
            "{device} has {voltage} V, needs {limit} V, {state}"
            | "{device} hat {voltage} V, braucht {limit} V, {state}",
        // Edits.
        ChangedCable { run: &'a str, cable: &'a str }: "{run}: cable {cable}" | "{run}: Leitung {cable}",
        ChangedLengths { run: &'a str }: "{run}: lengths" | "{run}: Längen",
        ChangedPairs { run: &'a str, pairs: usize }: "{run}: {pairs:pair|pairs}" | "{run}: {pairs:Paar|Paare}",
        ChangedModel { element: &'a str, model: &'a str }: "{element}: {model}" | same,
        ChangedPort { run: &'a str, port: &'a str }: "{run}: from {port}" | "{run}: ab {port}",
        ChangedOrder { run: &'a str }: "{run}: order of stops" | "{run}: Reihenfolge",
        Moved { station: &'a str, run: &'a str }: "{station} moved to {run}" | "{station} an {run} gehängt",
        Added { element: &'a str }: "{element} added" | "{element} ergänzt",
        Removed { element: &'a str }: "{element} removed" | "{element} entfernt",
        AcceptedFinding { element: &'a str }: "{element}: finding accepted" | "{element}: Befund akzeptiert",
        Remedied { element: &'a str }: "{element}: remedy" | "{element}: Abhilfe",
        TextEdited: "text edited" | "Text bearbeitet",
        Undone { what: &'a str }: "taken back: {what}" | "rückgängig: {what}",
        Redone { what: &'a str }: "made again: {what}" | "wiederholt: {what}",
        BroughtBack { number: usize }: "revision {number} brought back" | "Stand {number} zurückgeholt",
        FileCurrent { file: &'a str }: "in {file} too" | "auch in {file}",
        FileConflict { file: &'a str, place: &'a str }:
            "Another program changed {file} while {place} was changed here. Both are kept; the file is left as it is until you decide: see the revisions."
            | "Ein anderes Programm hat {file} geändert, während hier {place} geändert wurde. Beides bleibt erhalten; die Datei bleibt, wie sie ist, bis entschieden ist: siehe die Stände.",
        FileTrouble { file: &'a str, why: &'a str }:
            "{file} is not kept up to date: {why}. What was changed here is safe."
            | "{file} wird nicht nachgeführt: {why}. Was hier geändert wurde, ist sicher.",
        FileTakenIn: "the file was changed by another program" | "die Datei wurde von einem anderen Programm geändert",
        FileAside:
            "the file as another program left it; the site does not follow it"
            | "die Datei, wie ein anderes Programm sie ließ; die Anlage folgt ihr nicht",
        FirstRevision: "first revision" | "erster Stand",
        Announced { what: &'a str, verdict: &'a str, changed: usize }:
            "{what}. {verdict}. {changed:figure has|figures have} changed."
            | "{what}. {verdict}. {changed:Wert hat|Werte haben} sich geändert.",
        Conflict { place: &'a str }:
            "Somebody else has changed {place} since you saw it. Nothing was changed; look at it as it is now and try again."
            | "Jemand anders hat {place} geändert, seit es hier zu sehen war. Nichts wurde geändert; bitte ansehen, wie es jetzt ist, und wiederholen.",
        Both { is: &'a str, wanted: &'a str }: "There now: {is} Wanted: {wanted}" | "Jetzt dort: {is} Gewollt: {wanted}",
        NotALength { text: &'a str }: "“{text}” is not a length" | "„{text}“ ist keine Länge",
        TooFewLengths { found: usize, wanted: usize }:
            "{found:length is|lengths are} given for {wanted:section|sections}"
            | "{found:Länge|Längen} für {wanted:Abschnitt|Abschnitte} angegeben",
        NoSuch { name: &'a str }: "There is no “{name}”" | "„{name}“ gibt es nicht",
        NameTaken { name: &'a str }: "“{name}” is there already" | "„{name}“ gibt es schon",
        NoName: "A name is needed" | "Ein Name fehlt",
        // Jobs.
        Clears { findings: usize }: "clears {findings:finding|findings}" | "behebt {findings:Befund|Befunde}",
        JobsCount { jobs: usize }: "{jobs:job|jobs}" | "{jobs:Aufgabe|Aufgaben}",
        AndMore { elements: usize }: "and {elements} more" | "und {elements} weitere",
        RemediesLeft { findings: usize }:
            "Remedies were not looked for on {findings:further finding|further findings}."
            | "Für {findings:weiteren Befund|weitere Befunde} wurden keine Abhilfen gesucht.",
        AssumedCount { values: usize }: "{values:assumed value|assumed values}" | "{values:Annahme|Annahmen}",
        AssumedOf { what: &'a str, parts: &'a str }: "{what}<: {parts}>" | same,
        MissingCount { things: usize }: "{things:thing|things} not judged" | "{things:Punkt|Punkte} nicht beurteilt",
        PartsWithoutPrice { parts: usize }:
            "{parts:part|parts} without price"
            | "{parts:Teil|Teile} ohne Preis",
        CheckFirst: "Remedy checked: the finding goes and no new one comes." | "Abhilfe geprüft: Der Befund geht, kein neuer kommt.",
        // Questions.
        SwitchesAre { element: &'a str, settings: &'a str }: "{element}: {settings}." | same,
        KeptAs { number: usize }: "Kept as number {number}." | "Festgehalten als Nummer {number}.",
        AnswerNumber { number: usize }: "Answer {number}" | "Antwort {number}",
        WithEngine { version: &'a str }: "calculated by Latchline {version}" | "gerechnet von Latchline {version}",
        CatalogueHash { name: &'a str, hash: &'a str }: "{name}, SHA-256 {hash}" | same,
        OutOfRange { what: &'a str, low: &'a str, high: &'a str }:
            "{what} must be from {low} to {high}"
            | "{what} muss von {low} bis {high} sein",
        // Sites.
        Busy: "Too much is asked at once; try again in a moment." | "Zu viele Anfragen; bitte gleich noch einmal.",
        SurveyMistakes { mistakes: usize }:
            "{mistakes:mistake|mistakes} in the survey. Nothing was made."
            | "{mistakes:Fehler|Fehler} in der Aufnahme. Nichts wurde angelegt.",
        Difference { lines: usize }: "{lines:line differs|lines differ}" | "{lines:Zeile verschieden|Zeilen verschieden}",
        Same: "The two are the same." | "Beide sind gleich.",
        GuessesIn { lengths: usize }: "{lengths:length is|lengths are} guessed" | "{lengths:Länge|Längen} geschätzt",
        FlatsShown { floors: usize, flats: usize }: "{floors:floor|floors}, {flats:flat|flats}" | "{floors:Etage|Etagen}, {flats:Wohnung|Wohnungen}",
    }
}
