//! Sentences on drawings.

use crate::row::sentences;

sentences! {
    /// A sentence on drawings with its arguments, which are names and figures as they are to be shown.
    pub enum Phrase<'a> {
        Double { others: &'a str }: "DOUBLE: {others}" | "DOPPELT: {others}",
        DoubleAddress { others: &'a str, address: &'a str }:
            "DOUBLE: {others} has {address} too"
            | "DOPPELT: auch {others} hat {address}",
        AlarmInput { number: usize }: "alarm input {number}" | "Meldeeingang {number}",
        AlarmInputsOfDoor { door: &'a str }: "{door} alarm inputs" | "{door} Meldeeingänge",
        LockOfDoor { door: &'a str, number: usize }: "{door} lock {number}" | "{door} Schloss {number}",
        LockOutput { number: usize }: "lock output {number}" | "Schloss\u{ad}ausgang {number}",
        RelayClosed { number: usize }: "relay {number}, normally closed" | "Relais {number}, Öffner",
        RelayOpen { number: usize }: "relay {number}, normally open" | "Relais {number}, Schließer",
        CommandEnd { number: usize, pole: &'a str }: "command {number}: {pole}" | "Befehl {number}: {pole}",
        SecureRelayClosed {}: "relay on the secure side, normally closed" | "Relais auf der gesicherten Seite, Öffner",
        SecureRelayOpen {}: "relay on the secure side, normally open" | "Relais auf der gesicherten Seite, Schließer",
        CoilVoltage { volts: &'a str, kind: &'a str }: "coil: {volts} V {kind}" | "Spule: {volts} V {kind}",
        ContactRating { amperes: &'a str }: "contact: {amperes} A" | "Kontakt: {amperes} A",
        Tells { names: &'a str }: "tells {names}" | "meldet an {names}",
        SheetTitle { site: &'a str, what: &'a str, sheet: usize, of: usize }:
            "{site}: {what}, sheet {sheet} of {of}"
            | "{site}: {what}, Blatt {sheet} von {of}",
        SheetOf { sheet: usize, of: usize }: "{sheet} of {of}" | "{sheet} von {of}",
        Verdict { verdict: &'a str }:
            "Verdict: {verdict}. Not a certificate."
            | "Ergebnis: {verdict}. Kein Prüfzeugnis.",
        OfLimit { value: &'a str, limit: &'a str }: "{value} of {limit}" | "{value} von {limit}",
        SectionOn { length: &'a str, conductor: &'a str, run: &'a str }:
            "{length} of {conductor} on run {run}"
            | "{length} {conductor} auf Strang {run}",
        Margin { margin: &'a str }: "margin {margin}" | "Reserve {margin}",
        RunFromTo { run: &'a str, from: &'a str, to: &'a str }:
            "run {run}, from {from} to {to}"
            | "Strang {run}, von {from} nach {to}",
        ElevationShows { site: &'a str, sheet: usize, of: usize, devices: usize, all: usize }:
            "Elevation of {site}, sheet {sheet} of {of}: {devices} of {all} devices and their runs."
            | "Strangschema von {site}, Blatt {sheet} von {of}: {devices} von {all} Geräten und ihre Stränge.",
        OverviewShows { buildings: &'a str, links: usize }:
            "The whole system as blocks: {buildings}; {links:link|links} between buildings."
            | "Die ganze Anlage als Blöcke: {buildings}; {links:Verbindung|Verbindungen} zwischen Gebäuden.",
        WorstMargin { margin: &'a str, device: &'a str }:
            "least margin {margin} at {device}"
            | "kleinste Reserve {margin} an {device}",
        StationsInAll { stations: usize }: "{stations:station|stations}" | "{stations:Station|Stationen}",
        PortsUsed { used: usize, ports: usize }: "{used} of {ports:port|ports} used" | "{used} von {ports:Abgang|Abgängen} belegt",
        BoxesInAll { boxes: usize }: "{boxes:box|boxes}" | "{boxes:Verteiler oder Dose|Verteiler und Dosen}",
        LocksInAll { locks: usize }: "{locks:lock|locks}" | "{locks:Schloss|Schlösser}",
        FloorNamed { floor: &'a str }: "Floor {floor}" | "Geschoss {floor}",
        FloorsNamed { first: &'a str, last: &'a str }: "Floors {first} to {last}" | "Geschosse {first} bis {last}",
        DwellingsInAll { dwellings: usize }: "{dwellings:dwelling|dwellings}" | "{dwellings:Wohnung|Wohnungen}",
        DwellingsOnEach { dwellings: usize }: "{dwellings:dwelling|dwellings} on each" | "je {dwellings:Wohnung|Wohnungen}",
        TroubleList { troubles: &'a str }: "Trouble: {troubles}." | "Befunde: {troubles}.",
        MarginOrMore { least: &'a str }: "margin {least} V or more" | "Reserve {least} V oder mehr",
        MarginBetween { least: &'a str, most: &'a str }: "{least} to {most} V" | "{least} bis {most} V",
        MarginUnder { most: &'a str }: "under {most} V" | "unter {most} V",
        UsualConductor { conductor: &'a str }:
            "conductor {conductor} where none is named"
            | "Ader {conductor}, wo keine genannt ist",
        RunTo { run: &'a str, to: &'a str }: "{run} to {to}" | "{run} nach {to}",
        MatchLineSheet { sheet: &'a str }: "continues on sheet {sheet}" | "weiter auf Blatt {sheet}",
        MatchLineSheets { sheets: &'a str }: "continues on sheets {sheets}" | "weiter auf Blättern {sheets}",
        FromSource { source: &'a str }: "From {source}" | "Ab {source}",
        TitleContinued { title: &'a str }: "{title}, continued" | "{title}, Fortsetzung",
        Frequency { unit: &'a str }: "frequency, {unit}" | "Frequenz, {unit}",
        SingleStops { from: &'a str }: "single devices from {from}" | "einzelne Geräte ab {from}",
        StartsAt { from: &'a str }: "from {from}" | "ab {from}",
        LimitVolts { limit: &'a str }: "limit {limit} V" | "Grenzwert {limit} V",
        NotNamed { names: &'a str, more: Option<usize> }:
            "not named above: {names}< and {more} more>"
            | "oben ohne Namen: {names}< und {more} weitere>",
        ProfilesShow { groups: usize }:
            "Voltage over distance; groups of runs: {groups}."
            | "Spannung über der Entfernung; Gruppen von Strängen: {groups}.",
        NoStationAtAll { cables: &'a str }: "no station at all: {cables}" | "gar keine Station: {cables}",
        ReachShows { title: &'a str, subtitle: &'a str, curves: usize }:
            "{title}. {subtitle} {curves:curve|curves}."
            | "{title}. {subtitle} {curves:Kurve|Kurven}.",
        ChartsShow { charts: usize }: "Charts in all: {charts}." | "Diagramme insgesamt: {charts}.",
        Band { band: &'a str, low: &'a str, high: &'a str, unit: &'a str }:
            "{band}, {low} to {high} {unit}"
            | "{band}, {low} bis {high} {unit}",
        Weakest { station: &'a str, caller: &'a str, loss: &'a str, share: Option<&'a str>, at: &'a str, unit: &'a str, lengths: &'a str, budget: &'a str, outcome: &'a str }:
            "signal from {caller} to {station}: {loss} dB lost< or less on {share} % of the band (the rest is not needed)>, at {at} {unit}, {lengths}; {budget} dB may be lost: {outcome}"
            | "Signal von {caller} zu {station}: {loss} dB Dämpfung< oder weniger auf {share} % des Bands (mehr braucht es nicht)>, bei {at} {unit}, {lengths}; erlaubt sind {budget} dB: {outcome}",
        WeakestFrom { caller: &'a str, station: &'a str, loss: &'a str, at: &'a str, unit: &'a str }:
            "From {caller}: weakest is {station}, {loss} dB at {at} {unit}"
            | "Von {caller}: am schwächsten {station}, {loss} dB bei {at} {unit}",
        Hears { station: &'a str, caller: &'a str }: "{station} from {caller}" | "{station} von {caller}",
        Budget { budget: &'a str, share: Option<&'a str> }:
            "allowed {budget} dB<, on {share} % of the band>"
            | "erlaubt {budget} dB<, auf {share} % des Bands>",
        PowerReturns { source: &'a str }: "{source}: power returns at 0 s" | "{source}: Netzwiederkehr bei 0 s",
        AllUp { devices: usize, after: Option<&'a str>, last: Option<&'a str>, dropouts: Option<usize> }:
            "{devices:the one device is|all # devices are} up< after {after} s><, {last} last><; before that devices drop out again {dropouts:time|times}>"
            | "{devices:das eine Gerät ist|alle # Geräte sind} hochgefahren< nach {after} s><, zuletzt {last}><; vorher fallen Geräte {dropouts:Mal|Mal} wieder aus>",
        UpAtOnce { devices: usize }:
            "{devices:device is|devices are} up at once, as soon as there is power"
            | "{devices:Gerät ist|Geräte sind} sofort da, sobald Spannung da ist",
        StartNotJudged { devices: usize }:
            "not judged for {devices:device|devices}: a value of one of them at least is missing"
            | "für {devices:Gerät|Geräte} nicht beurteilt: es fehlen Werte",
        Hiccups { period: Option<&'a str>, down: usize, devices: usize }:
            "starts and drops out again and again<, every {period} s>; {down} of {devices:device|devices} {down:~is|~are} down"
            | "läuft an und fällt immer wieder aus<, alle {period} s>; {down} von {devices:Gerät|Geräten} {down:~ist|~sind} aus",
        BrownOut { down: usize, devices: usize }:
            "stays below the voltage it needs; {down} of {devices:device|devices} never {down:~starts|~start}"
            | "bleibt unter der nötigen Spannung; {down} von {devices:Gerät|Geräten} {down:~läuft|~laufen} nie an",
        TurnsOn { voltage: &'a str }: "turns on {voltage} V" | "ein bei {voltage} V",
        TurnsOff { voltage: &'a str }: "turns off {voltage} V" | "aus bei {voltage} V",
        BootCurrent { current: &'a str, source: Option<&'a str>, limit: Option<&'a str> }:
            "Booting all at once takes {current} A<; {source} gives {limit} A>."
            | "Alle zugleich brauchen zum Hochfahren {current} A<; {source} gibt {limit} A>.",
        RotaryAt { position: &'a str }: "at {position}" | "auf {position}",
        SwitchesOn { numbers: &'a str }: "ON: {numbers}" | same,
    }
}
