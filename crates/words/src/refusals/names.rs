//! Names that nothing has: codes, stations, findings, jobs, commands.

use crate::row::sentences;
use latchline_finding::Both;

sentences! {
    /// Why a name cannot be used, and what fits.
    pub enum NameRefusal<'a> {
        DidYouMean { names: &'a Both }: "did you mean {names}?" | "gemeint ist vielleicht {names}?",
        // Codes and symptoms.
        NoCode { code: &'a str }: "there is no code \"{code}\"" | "den Code „{code}“ gibt es nicht",
        AllCodes: "all codes: latchline explain" | "alle Codes: latchline explain",
        NoCodeNoSymptom { code: &'a str }:
            "there is no code and no symptom \"{code}\""
            | "„{code}“ ist kein Code und kein Symptom",
        Symptoms { symptoms: &'a Both }:
            "symptoms: {symptoms}; all codes: latchline explain"
            | "Symptome: {symptoms}; alle Codes: latchline explain",
        DidYouMeanOrSymptom { names: &'a Both, symptoms: &'a Both }:
            "did you mean {names}? Or symptoms: {symptoms}; all codes: latchline explain"
            | "gemeint ist vielleicht {names}? Oder Symptome: {symptoms}; alle Codes: latchline explain",
        // Stations and sheets.
        HasNoSwitches { name: &'a str }:
            "{name} has no address and no switches: it is a supply, a distributor or a branch box"
            | "{name} hat keine Adresse und keine Schalter: Das ist ein Netzteil, ein Verteiler oder eine Abzweigdose",
        NoStation { name: &'a str, stations: usize }:
            "the site has no station \"{name}\"; latchline addresses SITE lists all {stations}"
            | "die Anlage hat keine Station „{name}“; latchline addresses SITE zeigt alle {stations}",
        NoStationNear { name: &'a str, names: &'a Both }:
            "the site has no station \"{name}\"; did you mean {names}?"
            | "die Anlage hat keine Station „{name}“; gemeint ist vielleicht {names}?",
        NoEntranceAtAll: "the site has no entrance" | "die Anlage hat keinen Eingang",
        NoSupplyAtAll: "the site has no supply" | "die Anlage hat kein Netzteil",
        NoEntrance { name: &'a str, known: &'a str }:
            "the site has no entrance \"{name}\"; it has {known}"
            | "die Anlage hat keinen Eingang „{name}“; sie hat {known}",
        NoSupply { name: &'a str, known: &'a str }:
            "the site has no supply \"{name}\"; it has {known}"
            | "die Anlage hat kein Netzteil „{name}“; sie hat {known}",
        // Commands.
        NoFurtherCommands { command: &'a str }:
            "{command} has no further commands"
            | "{command} hat keine weiteren Befehle",
        NoCommand { command: &'a str, known: &'a str }:
            "there is no command \"{command}\"; there are {known}"
            | "den Befehl „{command}“ gibt es nicht; es gibt {known}",
        // Causes, for practice.
        WriteCause:
            "write KIND:ELEMENT, for example joint:A-12"
            | "KIND:ELEMENT schreiben, zum Beispiel joint:A-12",
        NoCause { kind: &'a str, known: &'a str }:
            "\"{kind}\" is no kind of cause; one of {known}"
            | "„{kind}“ ist keine Art von Ursache; es gibt {known}",
        // Findings, jobs, designs.
        NoFinding { number: usize, all: usize, file: &'a str }:
            "there is no finding F{number}, of {all} in all: latchline fix {file}"
            | "den Befund F{number} gibt es nicht, es sind insgesamt {all}: latchline fix {file}",
        NoJob { number: usize, all: usize }:
            "there is no job J{number}, of {all} in all: latchline check shows them"
            | "die Aufgabe J{number} gibt es nicht, es sind insgesamt {all}: latchline check zeigt sie",
        NotFound { code: &'a str, element: Option<&'a str> }:
            "{code}< at {element}> is not found in this file: latchline check shows what is"
            | "{code}< an {element}> ist in dieser Datei kein Befund: latchline check zeigt, was es ist",
        NoDesign { number: usize, all: usize }:
            "there is no design {number} to choose: the survey has {all}; see them without --choose"
            | "den Entwurf {number} gibt es nicht zur Wahl: Die Aufnahme hat {all}; ohne --choose sind sie zu sehen",
    }
}
