//! What a site does not let be done.

use crate::row::sentences;
use latchline_finding::Both;

sentences! {
    /// Why nothing is done with a site.
    pub enum SiteRefusal<'a> {
        // fix
        NoChange { number: usize, finding: &'a str, which: usize }:
            "finding F{number} ({finding}) has no change; {which} is not one"
            | "für den Befund F{number} ({finding}) gibt es keine Änderung, auch nicht {which}",
        NoSuchChange { number: usize, finding: &'a str, changes: usize, which: usize }:
            "finding F{number} ({finding}) has {changes:~one change|# changes}; there is no change {which}"
            | "für den Befund F{number} ({finding}) gibt es {changes:Änderung|Änderungen}, keine Änderung {which}",
        NotJudged: "the site cannot be judged" | "die Anlage kann nicht beurteilt werden",
        NoJobs:
            "there is no job: check finds nothing to mend"
            | "es gibt keine Aufgabe: check findet nichts zu beheben",
        JobWithoutFinding: "the job has no finding" | "zu der Aufgabe gibt es keinen Befund",
        NoChangeOfKind { kind: &'a str, finding: &'a str }:
            "no change of the kind {kind} that was tried mends this: {finding}"
            | "keine versuchte Änderung der Art {kind} behebt das: {finding}",
        CannotApply: "cannot apply the remedy" | "die Änderung ist hier nicht möglich",
        ChangedUnusable:
            "the changed site cannot be resolved"
            | "die geänderte Anlage ist nicht zu verstehen",
        // accept
        ReasonNeeded:
            "the reason must be one line of text that says why, for example --reason \"agreed with the owner\""
            | "der Grund muss eine Zeile Text sein, die sagt, warum, zum Beispiel --reason \"mit dem Eigentümer vereinbart\"",
        AcceptedAlready { code: &'a str, element: Option<&'a str> }:
            "{code}< of {element}> is accepted already"
            | "{code}< von {element}> ist schon akzeptiert",
        NothingToAccept { code: &'a str, element: Option<&'a str> }:
            "there is no finding {code}< of {element}> to accept; see what there is with: latchline check"
            | "es gibt keinen Befund {code}< von {element}> zu akzeptieren; was es gibt, zeigt: latchline check",
        NotOfThis { code: &'a str, element: Option<&'a str>, there: &'a str }:
            "there is no finding {code}< of {element}> to accept; there is one of {there}"
            | "es gibt keinen Befund {code}< von {element}> zu akzeptieren; es gibt einen von {there}",
        // headroom, practise
        NoDwelling:
            "the site has no dwelling yet; what a supply carries: latchline reach"
            | "die Anlage hat noch keine Wohnung; was ein Netzteil trägt: latchline reach",
        NothingToHide:
            "the site has nothing in which a fault could be hidden"
            | "die Anlage hat nichts, worin sich ein Fehler verstecken ließe",
        CannotBeRead { reading: &'a str }:
            "{reading} cannot be read on this site"
            | "{reading} lässt sich an dieser Anlage nicht messen",
        NoReading { reading: &'a str }: "{reading} is no reading" | "{reading} ist keine Messung",
        // edits
        NoTomlText { detail: &'a Both }: "the text is not valid TOML: {detail}" | "der Text ist kein gültiges TOML: {detail}",
        NoPlace { place: &'a str }: "there is no '{place}' to edit" | "„{place}“ gibt es nicht zu ändern",
        OtherPlace { place: &'a str }:
            "'{place}' is not of the kind that this edit needs"
            | "„{place}“ ist nicht von der Art, die diese Änderung braucht",
        NoValue { value: &'a str }: "'{value}' is not a TOML value" | "„{value}“ ist kein Wert in TOML",
        ChangedSince { place: &'a str }:
            "'{place}' has changed since, so that the edit no longer fits"
            | "„{place}“ hat sich seither geändert, sodass die Änderung nicht mehr passt",
        NameTaken { place: &'a str }: "'{place}' exists already" | "„{place}“ gibt es schon",
        NoPath: "the path of the edit is empty" | "der Pfad der Änderung ist leer",
    }
}
