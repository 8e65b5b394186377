//! Values of arguments, and what the reader of the arguments does not understand.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// Words around a mistake in the arguments.
    pub enum UsageWord {
        More: "More with --help." | "Mehr mit --help.",
    }
}

sentences! {
    /// Why an argument cannot be used.
    pub enum ArgumentRefusal<'a> {
        // The reader of the arguments.
        NoOption { option: &'a str, near: Option<&'a str> }:
            "there is no option {option} here<; did you mean {near}?>"
            | "die Option {option} gibt es hier nicht<; gemeint ist vielleicht {near}?>",
        OneTooMany { argument: &'a str, options: Option<&'a str> }:
            "\"{argument}\" is one too many: a figure stands behind its option< ({options})>, what has a space in it in quotes"
            | "„{argument}“ ist zu viel: Eine Zahl steht hinter ihrer Option< ({options})>, was ein Leerzeichen hat, in Anführungszeichen",
        NotInRange { option: &'a str, low: &'a str, high: &'a str, value: &'a str }:
            "{option} is to be a whole number from {low} to {high}; \"{value}\" is none"
            | "{option} soll eine ganze Zahl von {low} bis {high} sein; „{value}“ ist keine",
        NoWholeNumber { option: &'a str, value: &'a str }:
            "{option} is to be a whole number; \"{value}\" is none"
            | "{option} soll eine ganze Zahl sein; „{value}“ ist keine",
        NoNumber { option: &'a str, value: &'a str }:
            "{option} is to be a number; \"{value}\" is none"
            | "{option} soll eine Zahl sein; „{value}“ ist keine",
        OfOption { option: &'a str, reason: &'a Both }: "{option}: {reason}" | same,
        ValueMissing { option: &'a str }:
            "{option}: the value is missing; write it behind the option"
            | "{option}: Der Wert fehlt; er steht hinter der Option",
        Empty { option: &'a str, choices: Option<&'a str> }:
            "{option} is empty<; there is {choices}>"
            | "{option} ist leer<; es gibt {choices}>",
        CannotBe { option: &'a str, value: &'a str, choices: Option<&'a str> }:
            "{option} cannot be \"{value}\"<; there is {choices}>"
            | "{option} kann nicht „{value}“ sein<; es gibt {choices}>",
        NotTogether { one: &'a str, other: &'a str }:
            "{one} and {other} cannot stand together"
            | "{one} und {other} gehen nicht zusammen",
        Missing { arguments: &'a str }: "what is missing: {arguments}" | "es fehlt: {arguments}",
        NoCommand { command: &'a str, near: Option<&'a str> }:
            "there is no command \"{command}\"<; did you mean {near}?>"
            | "den Befehl „{command}“ gibt es nicht<; gemeint ist vielleicht {near}?>",
        OptionBelowZero { option: &'a str, number: &'a str }:
            "{option} cannot be {number}: a number here is not below zero"
            | "{option} kann nicht {number} sein: Eine Zahl ist hier nicht unter null",
        BelowZero { number: &'a str }:
            "\"{number}\" cannot stand here: a number here is not below zero"
            | "„{number}“ geht hier nicht: Eine Zahl ist hier nicht unter null",
        // Numbers and lengths.
        HasComma { option: &'a str, value: &'a str }:
            "{option} has a comma in its number: write {value}, or --language de for a decimal comma"
            | "{option} hat ein Komma in der Zahl: {value} schreiben, oder --language de für das Dezimalkomma",
        RangeOfMetres { text: &'a str, metres: &'a str }:
            "{text} is a range: take the longer end, {metres} m, so that it holds for both"
            | "{text} ist ein Bereich: das längere Ende nehmen, {metres} m, damit es für beide gilt",
        Range { text: &'a str }:
            "{text} is a range: take its longer end in metres, so that it holds for both"
            | "{text} ist ein Bereich: dessen längeres Ende in Metern nehmen, damit es für beide gilt",
        OtherUnit { text: &'a str, metres: &'a str }: "{text} is {metres} m; write {metres}" | "{text} sind {metres} m; {metres} schreiben",
        NoMetres { text: &'a str }:
            "\"{text}\" is no length in metres; write for example 6.5"
            | "„{text}“ ist keine Länge in Metern; zum Beispiel 6,5 schreiben",
        Several { reason: &'a Both }:
            "{reason}, and several as 3,6.5,12"
            | "{reason}, und mehrere als 3,6.5,12",
        NoHours { text: &'a str }:
            "\"{text}\" is no number of hours; write for example 8.5"
            | "„{text}“ ist keine Zahl von Stunden; zum Beispiel 8,5 schreiben",
        HoursFrom: "--hours is from 0.1 to 1000" | "--hours geht von 0,1 bis 1000",
        NoLength { option: &'a str, value: &'a str, least: &'a str, most: &'a str }:
            "{option} {value} is not a length between {least} and {most} m"
            | "{option} {value} ist keine Länge zwischen {least} und {most} m",
        OutOfOrder { option: &'a str, length: &'a str, next: &'a str }:
            "{option} has {length} and then {next}; commas stand between lengths, the least first, and a decimal takes a point: {length}.{next}"
            | "{option} hat {length} und dann {next}; Kommas stehen zwischen Längen, die kleinste zuerst, und Dezimalstellen nach einem Punkt: {length}.{next}",
        NoStations { stations: usize }:
            "{stations} is not a number of stations from 1 to 200"
            | "{stations} ist keine Zahl von Stationen von 1 bis 200",
        NoSamples { samples: &'a str, most: &'a str }:
            "{samples} samples; between 1 and {most} can be run"
            | "{samples} Stichproben; zwischen 1 und {most} sind möglich",
        Seconds { most: &'a str }:
            "write a number of seconds from 0.001 to {most}, with a decimal point"
            | "eine Zahl von Sekunden von 0.001 bis {most} schreiben, mit Dezimalpunkt",
        NoDate { text: &'a str }:
            "\"{text}\" is not a date; write year-month-day, for example 2026-11-02"
            | "„{text}“ ist kein Datum; Jahr-Monat-Tag schreiben, zum Beispiel 2026-11-02",
        EpochNoNumber { seconds: &'a str }:
            "SOURCE_DATE_EPOCH is \"{seconds}\", not a number of seconds"
            | "SOURCE_DATE_EPOCH ist „{seconds}“, keine Zahl von Sekunden",
        EpochBeyond { seconds: &'a str }:
            "SOURCE_DATE_EPOCH is {seconds}, beyond every calendar"
            | "SOURCE_DATE_EPOCH ist {seconds}, jenseits jedes Kalenders",
        // Models with counts, jobs, findings, parts of a pack, sheets.
        NoModelCount { text: &'a str }:
            "\"{text}\" is no model with a count; write for example ostrel-v4=12"
            | "„{text}“ ist kein Modell mit Anzahl; zum Beispiel ostrel-v4=12 schreiben",
        CountFrom: "a count is from 1 to 1000" | "eine Anzahl geht von 1 bis 1000",
        FindingNotJob { number: usize }:
            "F{number} is a finding: write --finding F{number}; jobs are J1, J2, ... of check"
            | "F{number} ist ein Befund: --finding F{number} schreiben; Aufgaben sind J1, J2, ... von check",
        NoJobName { text: &'a str }:
            "\"{text}\" is no job; they are J1, J2, ... of check, or CODE:ELEMENT of a finding"
            | "„{text}“ ist keine Aufgabe; Aufgaben sind J1, J2, ... von check, oder CODE:ELEMENT eines Befunds",
        JobNotFinding { number: usize }:
            "J{number} is a job: write --job J{number}; findings are F1, F2, ... of fix"
            | "J{number} ist eine Aufgabe: --job J{number} schreiben; Befunde sind F1, F2, ... von fix",
        NoFindingName { text: &'a str }:
            "\"{text}\" is no finding; they are F1, F2, ... of: latchline fix SITE"
            | "„{text}“ ist kein Befund; Befunde sind F1, F2, ... von: latchline fix SITE",
        CsvOfTableOnly:
            "csv is a form of the table of faults alone: add --table"
            | "csv gibt es nur für die Fehlertabelle: --table ergänzen",
        NoPackPart { known: &'a str }:
            "there is no such part; there are {known}"
            | "diesen Teil gibt es nicht; es gibt {known}",
        // Dwellings.
        NoNumberIn { text: &'a str, name: &'a str }:
            "\"{text}\" has no number in it; write for example 27, 27B or 27B:2, or ask by the name with the site: latchline addresses SITE {name}"
            | "in „{text}“ steht keine Nummer; zum Beispiel 27, 27B oder 27B:2 schreiben, oder mit der Anlage nach dem Namen fragen: latchline addresses SITE {name}",
        StationFromOne:
            "stations of a dwelling count from 1, its main one"
            | "die Stationen einer Wohnung zählen ab 1, der Hauptstation",
        SeveralNumbers { text: &'a str, name: &'a str, dwelling: &'a str, station: usize, ordinal: &'a Both }:
            "\"{text}\" has more than one number; which is the dwelling's is not sure: write {dwelling} for the main station of {dwelling}, {dwelling}:{station} for its {ordinal}; or ask by the name with the site: latchline addresses SITE {name}"
            | "„{text}“ hat mehr als eine Nummer; welche die der Wohnung ist, ist nicht sicher: {dwelling} für die Hauptstation von {dwelling} schreiben, {dwelling}:{station} für deren {ordinal}; oder mit der Anlage nach dem Namen fragen: latchline addresses SITE {name}",
        SaysMore { text: &'a str, name: &'a str, dwelling: &'a str, station: usize, ordinal: &'a Both }:
            "\"{text}\" says more than a number and a letter, and what is meant is not sure: write {dwelling} for the main station of {dwelling}, {dwelling}:{station} for its {ordinal}; or ask by the name with the site: latchline addresses SITE {name}"
            | "„{text}“ sagt mehr als eine Nummer und einen Buchstaben, und was gemeint ist, ist nicht sicher: {dwelling} für die Hauptstation von {dwelling} schreiben, {dwelling}:{station} für deren {ordinal}; oder mit der Anlage nach dem Namen fragen: latchline addresses SITE {name}",
        WhichStation { named: usize, stated: usize }:
            "which station is meant? The name says station {named} of the dwelling, and --extension {stated} the number on its switches; leave one of the two out"
            | "welche Station ist gemeint? Der Name sagt Station {named} der Wohnung, --extension {stated} die Nummer an ihren Schaltern; eines von beiden weglassen",
        SheetSize { text: &'a str, least: &'a str, most: &'a str }:
            "\"{text}\" is no sheet size: a4, a4-upright, a3, a3-upright, letter, letter-upright, tabloid, phone, or WIDTHxHEIGHT with {least} to {most} mm each"
            | "„{text}“ ist keine Blattgröße: a4, a4-upright, a3, a3-upright, letter, letter-upright, tabloid, phone, oder BREITExHÖHE mit je {least} bis {most} mm",
    }
}
