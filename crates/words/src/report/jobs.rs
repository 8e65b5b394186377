//! What is to be done: the list of jobs and the causes behind it.

use crate::row::{sentences, words};

words! {
    /// What is in danger.
    pub enum DangerWord {
        People: "people" | "Menschen",
        Fire: "fire" | "Brand",
        Supply: "supply" | "Netzteil",
        Riser: "riser" | "Steigleitung",
        Run: "run" | "Strang",
        Station: "station" | "Station",
        Address: "address" | "Adresse",
        Site: "site" | "Anlage",
    }
}

words! {
    /// Heads of the first page.
    pub enum JobHead {
        Causes:
            "What else was found, by the job that mends it"
            | "Weitere Befunde, nach der Aufgabe, die sie behebt",
        Advice: "Advice" | "Hinweise",
    }
}

sentences! {
    /// What is said of jobs and causes.
    pub enum JobWords<'a> {
        InDanger { counted: &'a str }: "Findings by danger: {counted}." | "Befunde nach Gefahr: {counted}.",
        Jobs { currency: Option<&'a str> }:
            "Jobs, worst danger first, those before each done<; {currency}>, without making good"
            | "Aufgaben, größte Gefahr zuerst, jede nach denen davor<; {currency}>, ohne Beiputzen",
        Title { danger: &'a str, what: &'a str }: "{danger}: {what}" | same,
        OnRun { run: &'a str, stations: usize, worst: &'a str }:
            "{stations:station|stations} on {run}; worst: {worst}"
            | "{stations:Station|Stationen} an {run}; am schlechtesten: {worst}",
        AndMore { message: &'a str, more: usize }: "{message}, and {more} more like it" | "{message}, und {more} weitere",
        AndOthers { message: &'a str, names: &'a str }: "{message}; also {names}" | "{message}; ebenso {names}",
        NamesAndMore { names: &'a str, more: usize }: "{names} and {more} more" | "{names} und {more} weitere",
        At { message: &'a str, place: &'a str }: "{message} ({place})" | same,
        CodeAt { message: &'a str, code: &'a str, place: Option<&'a str> }: "{message} [{code}<, {place}>]" | same,
        Change { kind: &'a str, to: Option<&'a str>, cost: &'a str, labour: Option<&'a str>, enters: Option<&'a str>, clears: usize, value: Option<&'a str>, told: Option<&'a str> }:
            "{kind}< ({to})>: {cost}<, {labour}><, {enters}>; clears {clears:finding|findings}<; brings it to {value}><; {told}>"
            | "{kind}< ({to})>: {cost}<, {labour}><, {enters}>; behebt {clears:Befund|Befunde}<; bringt es auf {value}><; {told}>",
        PartOf { kind: &'a str, to: Option<&'a str>, at: Option<&'a str> }:
            "{kind}< {to}>< on {at}>"
            | "{kind}< {to}>< an {at}>",
        BatteriesInAll { batteries: &'a str }: "{batteries} in all" | "insgesamt {batteries}",
        SupplyOfLock { voltage: &'a str, tolerance: Option<&'a str> }:
            "{voltage}<, within {tolerance}>"
            | "{voltage}<, höchstens {tolerance} ab>",
        PartTo { to: &'a str }: "({to})" | same,
        Both { first: &'a str, second: &'a str }: "{first} and {second}" | "{first} und {second}",
        PartsCost { amount: &'a str }: "{amount} more for parts" | "{amount} mehr für Teile",
        PartsSaved { amount: &'a str }: "{amount} less for parts" | "{amount} weniger für Teile",
        NoParts: "nothing to buy" | "nichts zu kaufen",
        SamePrice: "parts at the price of the old ones" | "Teile zum Preis der alten",
        NoPrice: "price not known" | "Preis nicht bekannt",
        NoPriceNoWork: "price and work not known" | "Preis und Arbeit nicht bekannt",
        SomeWithoutPrice { priced: &'a str }: "{priced}, and parts without a price" | "{priced}, dazu Teile ohne Preis",
        EntersNone: "no dwelling to enter" | "keine Wohnung zu betreten",
        Enters { dwellings: usize, names: &'a str }:
            "{dwellings:dwelling|dwellings} to enter ({names})"
            | "{dwellings:Wohnung|Wohnungen} zu betreten ({names})",
        EndOfRun { run: &'a str, device: Option<&'a str> }:
            "end of run {run}<, at {device}>"
            | "Ende von Strang {run}<, an {device}>",
        Line { line: usize }: "line {line}" | "Zeile {line}",
        Named { code: &'a str, names: &'a str }: "{code}: {names}" | same,
        InOneLine { head: &'a str, what: &'a str }: "{head}: {what}" | same,
        NoChange { hint: Option<&'a str> }:
            "no change is known that mends it<; {hint}>"
            | "keine Änderung ist bekannt, die das behebt<; {hint}>",
        ReadsFarOff { message: &'a str, hint: &'a str }:
            "look at this reading: {message}; {hint}"
            | "diesen Messwert ansehen: {message}; {hint}",
        LookFirst { hint: &'a str, change: &'a str }:
            "first {hint}; if that is not it, {change}"
            | "zuerst: {hint}; ist es das nicht, {change}",
        DoneBy { jobs: &'a str }:
            "nothing is left to do once {jobs} are done"
            | "nach {jobs} ist hier nichts mehr zu tun",
        DoneByOne { job: &'a str }: "nothing is left to do once {job} is done" | "nach {job} ist hier nichts mehr zu tun",
        NoChangeInOrder { hint: Option<&'a str> }:
            "once the jobs before it are done, no change that was tried mends it<; {hint}>"
            | "sind die Aufgaben davor erledigt, behebt das keine versuchte Änderung<; {hint}>",
        MoreJobs { jobs: usize }:
            "{jobs:more job|more jobs} below."
            | "{jobs:weitere Aufgabe|weitere Aufgaben} unten.",
        AllJobs { cost: &'a str, unpriced: Option<usize>, labour: Option<&'a str>, enters: &'a str }:
            "All jobs that have a change: {cost}< ({unpriced:job has|jobs have} parts without a price)><, {labour}>, {enters}."
            | "Alle Aufgaben mit Änderung: {cost}< ({unpriced:Aufgabe|Aufgaben} mit Teilen ohne Preis)><, {labour}>, {enters}.",
        Foot { job: &'a str, command: &'a str }:
            "To do {job}: {command}; then check again, the numbers are new."
            | "{job} erledigen: {command}; dann prüfen (neue Nummern).",
        Number { job: usize }: "J{job}" | same,
        Counted { code: &'a str, findings: usize }: "{code} ({findings})" | same,
    }
}

words! {
    /// Heads of the page of a symptom.
    pub enum SymptomHead {
        MeasureFirst: "Measure first" | "Zuerst messen",
        DoFirst: "Do first" | "Zuerst tun",
        WhichIsIt: "It may be one of these; ask for the one that it is:" | "Es kann eines davon sein; nach dem fragen, das es ist:",
        MayBe: "What it may come of" | "Woran es liegen kann",
        Then:
            "With readings in hand: latchline locate SITE STATION=VOLTAGE ranks the causes. The page of a code: latchline explain CODE"
            | "Mit Messwerten: latchline locate SITE STATION=SPANNUNG ordnet die Ursachen. Die Seite eines Codes: latchline explain CODE",
    }
}
