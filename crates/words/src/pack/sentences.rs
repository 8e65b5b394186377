//! Sentences of the pack.

use crate::row::sentences;

sentences! {
    /// A sentence of the pack with its arguments, which are shown as they are.
    pub enum Sentence<'a> {
        AlarmTells { told: &'a str }: "tells {told}" | "meldet an {told}",
        AllowedRange { least: &'a str, most: &'a str }:
            "allowed: {least} to {most}"
            | "erlaubt: {least} bis {most}",
        AtBusVoltage { value: &'a str }: "at a bus of {value}, nominal" | "bei {value} am Bus, nominal",
        AtLeast { value: &'a str }: "at least {value}" | "mindestens {value}",
        AtMost { value: &'a str }: "at most {value}" | "höchstens {value}",
        AtMostAtAStretch { time: &'a str }: "at most {time} at a stretch" | "höchstens {time} am Stück",
        BatteryCarries { hours: &'a str }:
            "The battery carries the system for at least {hours} in standby; nothing to wait for today."
            | "Die Batterie trägt die Anlage in Ruhe mindestens {hours}; heute nicht abzuwarten.",
        CallAudio { caller: &'a str }:
            "Call from {caller}: it rings; speech is clear both ways. Voltage while talking:"
            | "Ruf von {caller}: Es läutet; Sprache in beiden Richtungen klar. Spannung beim Sprechen:",
        CallAudioExtension { caller: &'a str }:
            "Call from {caller}: it rings with the main station; answer here, speech is clear both ways. Voltage while talking:"
            | "Ruf von {caller}: Läutet mit der Hauptstelle; hier annehmen, Sprache in beiden Richtungen klar. Spannung beim Sprechen:",
        CallVideo { caller: &'a str }:
            "Call from {caller}: it rings; the picture is steady; speech is clear both ways. Voltage while talking:"
            | "Ruf von {caller}: Es läutet; das Bild steht; Sprache in beiden Richtungen klar. Spannung beim Sprechen:",
        CallVideoExtension { caller: &'a str }:
            "Call from {caller}: it rings with the main station; answer here: picture is steady, speech is clear both ways. Voltage while talking:"
            | "Ruf von {caller}: Läutet mit der Hauptstelle; hier annehmen: Bild steht, Sprache in beiden Richtungen klar. Spannung beim Sprechen:",
        CallAny { dwelling: &'a str }:
            "Call to {dwelling}: it rings, speech is clear both ways, the picture (if any) is steady, the release opens. (How much reaches it could not be judged.)"
            | "Ruf an {dwelling}: Es läutet, Sprache in beiden Richtungen klar, das Bild (falls vorhanden) steht, die Freigabe öffnet. (Wie viel dort ankommt, war nicht zu beurteilen.)",
        CallWeakest { station: &'a str, in_hand: &'a str }:
            "Call to {station}, to which least gets through from here ({in_hand} in hand): it rings, speech is clear both ways, the picture (if any) is steady, the release opens."
            | "Ruf an {station}, wo von hier am wenigsten ankommt ({in_hand} Reserve): Es läutet, Sprache in beiden Richtungen klar, das Bild (falls vorhanden) steht, die Freigabe öffnet.",
        ConnectFeeder { run: &'a str }:
            "Connect run {run}; what it leads to has power. Its current is read later, with everything beyond it."
            | "Strang {run} anschließen; was er speist, hat Spannung. Sein Strom wird später gemessen, mit allem dahinter.",
        ConnectRun { run: &'a str, from: &'a str }:
            "Connect run {run}; current at {from}"
            | "Strang {run} anschließen; Strom an {from}",
        ContactNeeded { contact: &'a str }: "this lock needs: {contact}" | "dieses Schloss braucht: {contact}",
        CutAllowance { tolerance: &'a str, ends: &'a str, step: &'a str }:
            "Cut to: the stated length, {tolerance} more for its tolerance, and {ends} at each end for making off, rounded up to {step}."
            | "Ablängen auf: angegebene Länge, {tolerance} mehr für ihre Toleranz und {ends} je Ende zum Anschließen, aufgerundet auf {step}.",
        CutByTheMetre { name: &'a str, needed: &'a str }:
            "{name}: {needed}, bought to length (the catalogue states no drum lengths)"
            | "{name}: {needed}, nach Länge gekauft (der Katalog nennt keine Trommellängen)",
        CutProved { name: &'a str, drums: &'a str, needed: &'a str, bought: &'a str, waste: &'a str }:
            "{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; proved least"
            | "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; bewiesen kleinstmöglich",
        CutTooLong { name: &'a str, needed: &'a str, piece: &'a str, longest: &'a str }:
            "{name}: {needed}, order to length: a piece of {piece} is longer than the longest drum of {longest}"
            | "{name}: {needed}, nach Länge bestellen: Ein Stück von {piece} ist länger als die längste Trommel von {longest}",
        CutWithBound { name: &'a str, drums: &'a str, needed: &'a str, bought: &'a str, waste: &'a str, bound: &'a str }:
            "{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; no plan buys less than {bound}"
            | "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; kein Plan kauft weniger als {bound}",
        DoorAgreed { door: &'a str }:
            "{door}: release, escape and fire interlock agreed with (name)"
            | "{door}: Freigabe, Fluchtweg und Brandfallsteuerung abgestimmt mit (Name)",
        DropInACall { caller: &'a str, station: &'a str }:
            "The same while {station} talks with {caller}"
            | "Derselbe, während {caller} und {station} sprechen",
        DropInStandby { from: &'a str, end: &'a str }:
            "Drop from {from} to {end}, standby"
            | "Spannungsfall von {from} bis {end}, Ruhe",
        DropNote { accuracy: &'a str }:
            "Drops show a joint that no single voltage shows: the voltage at the start less that at the end, one meter on one range, both within a minute, lights and heaters of the doors as by night, in a call nobody else calling. The joints named under them allow for every tolerance and for {accuracy} between two readings of one meter (assumed); what would fail, fails in its worst state."
            | "Ein Spannungsfall zeigt eine schlechte Verbindung, die keine einzelne Spannung zeigt: Spannung am Anfang weniger Spannung am Ende, ein Messgerät, ein Bereich, beide binnen einer Minute, Licht und Heizung der Türen wie bei Nacht, im Ruf sonst kein Ruf. Die darunter genannten Verbindungen lassen alle Toleranzen und {accuracy} zwischen zwei Messungen eines Geräts (angenommen) zu; was versagt, versagt im ungünstigsten Zustand.",
        DropInSection { section: &'a str }: "Drop on {section}" | "Spannungsfall auf {section}",
        ErrorsShort { count: &'a str }: "{count} ERRORS" | "{count} FEHLER",
        FeederCurrent { run: &'a str }:
            "Current of {run} with everything beyond it"
            | "Strom von {run} mit allem dahinter",
        CablesNotStated { cables: &'a str }:
            "Of {cables} cable(s) at doors the plan states neither type nor length; each is marked below and stands at the end of the cable list. They are neither in the bill nor in the cut list, and their resistance is not in the figures of the locks."
            | "Zu {cables} Leitung(en) an Türen nennt der Plan weder Typ noch Länge; jede ist unten bezeichnet und steht am Ende der Leitungsliste. Sie fehlen in Stückliste und Zuschnitt, und ihr Widerstand steckt nicht in den Werten der Schlösser.",
        Connector { ways: &'a str }: "connector, {ways} ways" | "Verbinder, {ways}-fach",
        SeveralInOneTerminal { wires: &'a str }:
            "{wires} wires in this terminal: one made for that, or a connector"
            | "{wires} Drähte in dieser Klemme: eine dafür gebaute, oder ein Verbinder",
        FreePort { port: &'a str }: "port {port} is free" | "Abgang {port} ist frei",
        HeightRange { least: &'a str, most: &'a str, source: &'a str }:
            "published: {least} to {most} ({source})"
            | "veröffentlicht: {least} bis {most} ({source})",
        JointHides { end: &'a str, joint: &'a str, device: &'a str, fails: &'a str }:
            "In the last length before {end} a joint below {joint} would not show, and {device} fails from {fails} on. So read this too:"
            | "Auf der letzten Länge vor {end} bliebe eine Verbindung unter {joint} verborgen, und {device} versagt ab {fails}. Deshalb auch messen:",
        JointShows { joint: &'a str, device: &'a str, fails: &'a str }:
            "Shows any joint of {joint} or more; from {fails} on {device} would fail."
            | "Zeigt jede Verbindung ab {joint}; ab {fails} würde {device} versagen.",
        JointShowsAndNoneFails { joint: &'a str }:
            "Shows any joint of {joint} or more."
            | "Zeigt jede Verbindung ab {joint}.",
        LinesWithoutPrice { parts: &'a str, small: &'a str }:
            "Without a price, and not in the total: {parts} of the parts of the plan, {small} kinds of small parts."
            | "Ohne Preis und nicht in der Summe: {parts} Teile des Plans, {small} Arten Kleinteile.",
        TotalHolds { plan: &'a str, currency: &'a str }:
            "The total buys spare stations and whole drums. The parts of the plan alone, cable by the metre, as design, fix and compare count them: {plan} {currency}."
            | "Die Summe kauft Reservestationen und ganze Trommeln. Die Teile des Plans allein, Leitung nach Metern, wie design, fix und compare sie zählen: {plan} {currency}.",
        LockCalculation { door: &'a str, number: &'a str }:
            "{door}: lock {number}"
            | "{door}: Schloss {number}",
        LoopAgain { from: &'a str, end: &'a str }:
            "Even that can hide it. Switch the port off, unplug the electronics, and measure the loop from {from} again, far end {end} short-circuited: nearest to the first reading."
            | "Auch das kann sie verbergen. Abgang ausschalten, Elektronik ziehen und die Schleife ab {from} noch einmal messen, fernes Ende {end} kurzgeschlossen: so nahe am ersten Messwert wie möglich.",
        MeasureCapacitance { from: &'a str, end: &'a str }:
            "Capacitance between the conductors from {from}, far end {end} open"
            | "Kapazität zwischen den Adern ab {from}, fernes Ende {end} offen",
        MeasureLoop { from: &'a str, end: &'a str }:
            "Loop resistance from {from}, far end {end} short-circuited"
            | "Schleifenwiderstand ab {from}, fernes Ende {end} kurzgeschlossen",
        ModuleCurrent { day: &'a str, night: &'a str }:
            "{day} by day, {night} by night"
            | "{day} bei Tag, {night} bei Nacht",
        Needs { what: &'a str }: "needs {what}" | "braucht {what}",
        Origin { site: &'a str, revision: &'a str, date: &'a str, hash: &'a str }:
            "{site} · revision {revision} · {date} · input SHA-256 {hash}"
            | "{site} · Stand {revision} · {date} · SHA-256 der Eingabe {hash}",
        OriginUndated { site: &'a str, revision: &'a str, hash: &'a str }:
            "{site} · revision {revision} · input SHA-256 {hash}"
            | "{site} · Stand {revision} · SHA-256 der Eingabe {hash}",
        PolarityAtEnd { from: &'a str, end: &'a str }:
            "At {end}, electronics unplugged: + is the + of {from}, − its −, no short between them"
            | "An {end}, Elektronik gezogen: + ist das + von {from}, − sein −, kein Kurzschluss dazwischen",
        PricesIn { currency: &'a str }:
            "Prices in {currency}, without tax and labour."
            | "Preise in {currency}, ohne Steuer und Arbeit.",
        PullAndLabel { from: &'a str, to: &'a str }:
            "Pull from {from} to {to}; label both ends."
            | "Von {from} nach {to} ziehen; beide Enden beschriften.",
        FindAndLabel { from: &'a str, to: &'a str }:
            "In place already, from {from} to {to}: find and try both ends; label them."
            | "Liegt bereits von {from} nach {to}: beide Enden suchen, durchprüfen, beschriften.",
        ReleaseTime { time: &'a str }:
            "Release time: set to {time}. Measured:"
            | "Freigabezeit: eingestellt auf {time}. Gemessen:",
        SetAddress { address: &'a str, settings: &'a str }:
            "Set {address}: {settings}"
            | "Einstellen {address}: {settings}",
        SetVoltage { voltage: &'a str }: "Set the output to {voltage}." | "Ausgang auf {voltage} einstellen.",
        SetsSolved { solved: &'a str, of: &'a str }:
            "combinations of calls solved: {solved} of {of}"
            | "gerechnete Rufkombinationen: {solved} von {of}",
        SiteHasErrors { count: &'a str }:
            "THIS SITE HAS ERRORS ({count}): DO NOT BUILD FROM THIS SHEET. See the snag list."
            | "DIESE ANLAGE HAT FEHLER ({count}): NICHT NACH DIESEM BLATT BAUEN. Siehe Mängelliste.",
        SpareRule { from: &'a str, of: &'a str }:
            "Spares: one station for every {of} of a model begun, from {from} on (common practice). Cable: what is left of the drums."
            | "Reserve: je angefangene {of} eines Modells eine Station, ab {from} (üblich). Leitung: Rest der Trommeln.",
        SumOfDrops { source: &'a str, drops: &'a str }: "U₀ = {source}, Σ R I = {drops}" | same,
        SupplyCalculation { supply: &'a str }:
            "{supply}: battery, mains, heat"
            | "{supply}: Batterie, Netz, Wärme",
        SurgeProtector { resistance: &'a str }:
            "Surge protector, {resistance} in the loop"
            | "Überspannungsschutz, {resistance} in der Schleife",
        TryAlarmInput { told: &'a str }:
            "Trip the contact: {told} must be told."
            | "Kontakt auslösen: Es muss gemeldet werden an {told}.",
        TryModule { module: &'a str }:
            "{module} works and opens what it should."
            | "{module} arbeitet und öffnet, was es soll.",
        VoltageAtEnd { run: &'a str }: "Voltage at the end of {run}" | "Spannung am Ende von {run}",
        VoltageCalculation { device: &'a str, source: &'a str, state: &'a str }:
            "{device} on {source}: {state}"
            | "{device} an {source}: {state}",
        WorstAtOnce { at_once: usize, doors: usize }:
            "the worst {at_once} of {doors} doors at once"
            | "die ungünstigsten {at_once} von {doors} Türen gleichzeitig",
    }
}
