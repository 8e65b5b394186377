//! What `design` says of the designs to choose between.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// What the designs are set side by side by.
    pub enum ChoiceHead {
        Cost: "cost" | "Kosten",
        Margin: "least margin" | "kleinste Reserve",
        Signal: "signal in hand" | "Signalreserve",
        Silenced: "silenced at most" | "höchstens stumm",
        Warnings: "warnings" | "Warnungen",
        Labour: "labour" | "Arbeit",
        SparePorts: "spare ports" | "freie Abgänge",
    }
}

sentences! {
    /// The designs to choose between.
    pub enum ChoiceWords<'a> {
        Head { count: usize }:
            "{count:design|designs} to choose from: none is as good as another in price, volts, decibels, dwellings silenced and warnings at once."
            | "{count:Entwurf|Entwürfe} zur Wahl: Keiner ist zugleich in Preis, Volt, Dezibel, stummen Wohnungen und Warnungen so gut wie ein anderer.",
        Single:
            "No other design is offered beside this one."
            | "Neben diesem Entwurf wird kein anderer angeboten.",
        Cheapest: "cheapest" | "billigster",
        MarginAsked { volts: &'a str }: "{volts} V in hand asked" | "{volts} V Reserve verlangt",
        GroupAsked { dwellings: usize }:
            "{dwellings:dwelling|dwellings} a run asked"
            | "{dwellings:Wohnung|Wohnungen} je Strang verlangt",
        VoltsAt { volts: &'a str, device: &'a str }: "{volts} V, {device}" | same,
        DecibelsAt { decibels: &'a str, station: &'a str, caller: &'a str }:
            "{decibels} dB, {station} from {caller}"
            | "{decibels} dB, {station} von {caller}",
        Dwellings { dwellings: usize }: "{dwellings:dwelling|dwellings}" | "{dwellings:Wohnung|Wohnungen}",
        Hours { hours: &'a str }: "{hours} h" | same,
        Unknown: "not judged" | "nicht beurteilt",
        StepBuys { from: usize, to: usize, price: &'a str, currency: &'a str, gains: Option<&'a Both>, losses: Option<&'a Both> }:
            "From {from} to {to}: {price} {currency} more<, for {gains}><, but {losses}>."
            | "Von {from} zu {to}: {price} {currency} mehr<, dafür {gains}><, aber {losses}>.",
        MoreVolts { volts: &'a str }: "{volts} V more margin" | "{volts} V mehr Reserve",
        LessVolts { volts: &'a str }: "{volts} V less margin" | "{volts} V weniger Reserve",
        MoreDecibels { decibels: &'a str }: "{decibels} dB more signal in hand" | "{decibels} dB mehr Signalreserve",
        LessDecibels { decibels: &'a str }: "{decibels} dB less signal in hand" | "{decibels} dB weniger Signalreserve",
        FewerSilenced { dwellings: usize }:
            "{dwellings:dwelling|dwellings} fewer silenced by one joint"
            | "{dwellings:Wohnung|Wohnungen} weniger stumm durch eine Klemme",
        MoreSilenced { dwellings: usize }:
            "{dwellings:dwelling|dwellings} more silenced by one joint"
            | "{dwellings:Wohnung|Wohnungen} mehr stumm durch eine Klemme",
        FewerWarnings { warnings: usize }: "{warnings:warning|warnings} fewer" | "{warnings:Warnung|Warnungen} weniger",
        MoreWarnings { warnings: usize }: "{warnings:warning|warnings} more" | "{warnings:Warnung|Warnungen} mehr",
        Beaten { asked: &'a Both, by: usize }:
            "Left out: {asked}. What came of it is in nothing better than {by}."
            | "Weggelassen: {asked}. Was dabei herauskam, ist in nichts besser als {by}.",
        Tied { asked: &'a Both, with: usize }:
            "Left out: {asked}. What came of it ties with {with} in all of that."
            | "Weggelassen: {asked}. Was dabei herauskam, gleicht {with} in alledem.",
        NotFound { asked: &'a Both, why: &'a Both }:
            "Left out: {asked}. None was found: {why}."
            | "Weggelassen: {asked}. Keiner gefunden: {why}.",
        CheaperBy { asked: &'a Both }:
            "The cheapest was found while looking for: {asked}."
            | "Der billigste fand sich bei der Suche nach: {asked}.",
        Effort { plans: usize }:
            "Those beside the cheapest were looked for with one walking order and at most {plans} plans, so that a step may cost less than it says here; --time looks longer."
            | "Die neben dem billigsten wurden mit einer Reihenfolge und höchstens {plans} Plänen gesucht; ein Schritt kann also weniger kosten, als hier steht. --time sucht länger.",
        Written { number: usize, file: &'a str }:
            "{file} is number {number}; --choose writes another."
            | "{file} ist Nummer {number}; --choose schreibt einen anderen.",
    }
}
