//! Sentences of the pack.

use crate::row::sentences;

sentences! {
    /// A sentence of the pack with its arguments, which are shown as they are.
    pub enum Sentence<'a> {
        FaultAtRun { run: &'a str, from: &'a str, to: &'a str }:
            "Run {run}: begins at {from}, ends at {to}"
            | "Strang {run}: beginnt an {from}, endet an {to}",
        FaultAtBox { name: &'a str, to: Option<&'a str> }:
            "Box {name}: begins at its input<, ends at {to}>"
            | "Verteiler {name}: beginnt am Eingang<, endet an {to}>",
        FaultAtSupply { supply: &'a str, to: Option<&'a str> }:
            "Supply {supply}: begins at its terminals<, ends at {to}, the lowest without a fault>"
            | "Netzteil {supply}: beginnt an seinen Klemmen<, endet an {to}, ohne Fehler am niedrigsten>",
        FaultKinds { kinds: &'a str, more: usize }:
            "{kinds}; {more} more, each rare" | "{kinds}; {more} weitere, jeder selten",
        FaultsLeftOut { rows: usize, share: &'a str }:
            "Not here, as less probable: {rows:row|rows}, {share} of a hundred faults. The program prints all of them."
            | "Nicht hier, weil weniger wahrscheinlich: {rows:Zeile|Zeilen}, {share} von hundert Fehlern. Das Programm druckt alle.",
        FaultsUnseen { share: &'a str, none: &'a str }:
            "{share} of a hundred show in none of these readings (settings, locks, handsets, what is still too small), and {none} are none of these."
            | "{share} von hundert zeigen sich in keinem dieser Messwerte (Einstellungen, Schlösser, Hörer, was noch zu klein ist), und {none} sind keiner davon.",
        NoRevisionStated { shown: &'a str }:
            "No revision is stated for this system yet. Until one is, every sheet says {shown}."
            | "Für diese Anlage ist noch kein Stand angegeben. Bis dahin steht auf jedem Blatt {shown}.",
        RevisionHolds { shown: &'a str }:
            "Revision {shown} holds, and stands on every sheet. A sheet that says another is out of date."
            | "Es gilt Stand {shown}; er steht auf jedem Blatt. Ein Blatt mit einem anderen ist überholt.",
        RevisionNotTheLast { shown: &'a str, current: &'a str }:
            "Every sheet says {shown}, as asked for when the pack was made; the last revision that the site file states is {current}."
            | "Auf jedem Blatt steht {shown}, so beim Erstellen der Mappe verlangt; der letzte Stand der Anlagendatei ist {current}.",
        EarthAssumed { size: &'a str, class_one: &'a str }:
            "Earth conductors of surge protectors: where the plan states no cross-section, {size} is assumed, the least that IEC 60364-5-53 asks, {class_one} for a protector of class I; the edition in force decides. Local codes prevail."
            | "Erdungsleiter der Überspannungsschutzgeräte: Wo der Plan keinen Querschnitt angibt, ist {size} angenommen, das Mindeste nach IEC 60364-5-53, bei einem Gerät der Klasse I {class_one}; es gilt die gültige Ausgabe. Örtliche Vorschriften gehen vor.",
        EarthBarRoom { count: usize }:
            "room for {count:conductor|conductors}, and those of the mains"
            | "Platz für {count:Leiter|Leiter} und die des Netzes",
        DoorBarRoom { count: usize }:
            "room for {count:conductor|conductors}, and the one to earth"
            | "Platz für {count:Leiter|Leiter} und den zur Erde",
        EarthBarPart { ways: usize }:
            "Earth and screen bar, {ways:terminal|terminals}"
            | "Erdungs- und Schirmschiene, {ways:Klemme|Klemmen}",
        FarEndOnCard { card: usize }: "far end: card {card}" | "fernes Ende: Karte {card}",
        ColourCodes { cables: &'a str }:
            "Codes of colours that the catalogue states: {cables}."
            | "Farbcodes nach dem Katalog: {cables}.",
        ContactMadeFor { current: &'a str }:
            "the door station's contact is made for {current}"
            | "der Kontakt der Türstation ist für {current} gebaut",
        TripOpensGate { time: &'a str }:
            "the contact closes for {time}: the drive opens the gate"
            | "der Kontakt schließt für {time}: Der Antrieb öffnet das Tor",
        TripCallsLift { time: &'a str }:
            "the contact closes for {time}: the lift does what its owner has set for it"
            | "der Kontakt schließt für {time}: Der Aufzug tut, was sein Eigentümer dafür eingestellt hat",
        AsAtStep { step: &'a str, what: &'a str }: "As at {step}: {what}" | "Wie bei {step}: {what}",
        CableAmounts { net: &'a str, cut: &'a str, bought: &'a str, left: &'a str }:
            "net {net}, cut {cut}, bought {bought}, left {left}"
            | "netto {net}, Zuschnitt {cut}, gekauft {bought}, Rest {left}",
        BarTerminal { number: &'a str }:
            "earth bar, terminal {number}"
            | "Erdungsschiene, Klemme {number}",
        EarthConductorPart { size: &'a str }:
            "Earth conductor for a surge protector, green-and-yellow, {size}; length by the shortest way, to be measured on site"
            | "Erdungsleiter für ein Überspannungsschutzgerät, grün-gelb, {size}; Länge auf kürzestem Weg, vor Ort zu messen",
        EarthConductorPartAssumed { size: &'a str }:
            "Earth conductor for a surge protector, green-and-yellow, {size} (assumed); length by the shortest way, to be measured on site"
            | "Erdungsleiter für ein Überspannungsschutzgerät, grün-gelb, {size} (angenommen); Länge auf kürzestem Weg, vor Ort zu messen",
        SparePairs { first: usize, last: Option<usize> }:
            "spare: pair {first}< to {last}>" | "frei: Paar {first}< bis {last}>",
        InsulationNote { least: &'a str }:
            "Insulation: at least {least} at 250 V DC, as IEC 60364-6 table 6A asks of SELV and PELV; the edition in force decides. Sound cable has far more. Where a value is expected, it was measured here before: a much lower one shows damp or damage."
            | "Isolation: mindestens {least} bei 250 V Gleichspannung, wie es IEC 60364-6 Tabelle 6A für SELV und PELV verlangt; es gilt die gültige Ausgabe. Gesunde Leitungen haben weit mehr. Wo ein Wert erwartet wird, wurde er hier schon gemessen: Ein viel kleinerer zeigt Feuchte oder Schaden.",
        TryHeater { station: &'a str }:
            "Heater of {station}, switched on (cold, or its test setting): after ten minutes the front is warm to the hand. How much more the station draws:"
            | "Heizung von {station}, eingeschaltet (Kälte oder Prüfstellung): nach zehn Minuten ist die Front handwarm. Um so viel mehr zieht die Station:",
        TryLight { light: &'a str, feed: &'a str, lit: &'a str }:
            "Light {light} ({feed}; {lit}): make it dark there or switch it on. It shines, evenly; its current:"
            | "Leuchte {light} ({feed}; {lit}): abdunkeln oder einschalten. Sie leuchtet gleichmäßig; ihr Strom:",
        Double { others: &'a str }: "DOUBLE: {others}" | "DOPPELT: {others}",
        DoubleAddress { others: &'a str, address: &'a str }:
            "DOUBLE of {others}: {address}"
            | "DOPPELT mit {others}: {address}",
        DoubleNumber { device: &'a str, others: &'a str, address: &'a str }:
            "DOUBLE NUMBER: {device} and {others} both have {address}. Give one of them another before power is switched on."
            | "NUMMER DOPPELT: {device} und {others} haben beide {address}. Vor dem Einschalten einem von ihnen eine andere geben.",
        AlarmTells { told: &'a str }: "tells {told}" | "meldet an {told}",
        AllowedRange { least: &'a str, most: &'a str }:
            "allowed: {least} to {most}"
            | "erlaubt: {least} bis {most}",
        AtBusVoltage { value: &'a str }: "at a bus of {value}, nominal" | "bei {value} am Bus, nominal",
        AtLeast { value: &'a str }: "at least {value}" | "mindestens {value}",
        AtMost { value: &'a str }: "at most {value}" | "höchstens {value}",
        AtMostAtAStretch { time: &'a str }: "at most {time} at a stretch" | "höchstens {time} am Stück",
        BatteryCarries { hours: &'a str }:
            "The battery lasts at least {hours} in standby; no need to wait for that today."
            | "Die Batterie reicht in Ruhe mindestens {hours}; das heute nicht abwarten.",
        BoundIn { state: &'a str }: "{state}; at least this voltage" | "{state}; mindestens diese Spannung",
        BriefDrop { run: &'a str, moment: &'a str }: "Drop {run}, {moment}" | "Abfall {run}, {moment}",
        BriefDropTalking { run: &'a str, caller: &'a str, station: &'a str }:
            "Drop {run}, {station} talks with {caller}"
            | "Abfall {run}, {caller} und {station} sprechen",
        BriefStandbyAt { terminals: &'a str }: "Standby at {terminals}" | "Ruhe an {terminals}",
        BatteriesInParallel { count: usize, voltage: &'a str }:
            "{count} batteries of {voltage} in parallel, + to +, − to −, each with a fuse of its own (see the maker); before they are connected, one reads like the other"
            | "{count} Batterien zu {voltage} parallel, + an +, − an −, jede mit eigener Sicherung (siehe Hersteller); vor dem Anklemmen zeigt eine wie die andere",
        BatteryAtRest { voltage: &'a str, least: &'a str, most: &'a str }:
            "Voltage of this battery ({voltage}) by itself, before it is connected. Range: charged, at rest, {least} to {most} a cell of lead (assumed; of another kind the maker's figures hold). Below it: charge first, or replace"
            | "Spannung dieser Batterie ({voltage}) für sich, vor dem Anklemmen. Bereich: geladen, in Ruhe, {least} bis {most} je Bleizelle (angenommen; bei anderer Bauart gelten die Werte des Herstellers). Darunter: erst laden oder tauschen",
        FedFromSeveral { feeds: &'a str }:
            "Live from more than one supply: {feeds}. Isolate all of them; prove dead at the terminals of each."
            | "Spannung von mehr als einem Netzteil: {feeds}. Alle freischalten; an den Klemmen eines jeden Spannungsfreiheit feststellen.",
        LessThan { value: &'a str }: "below {value}" | "unter {value}",
        SupplyOverRun { supply: &'a str, run: &'a str }: "{supply} over {run}" | "{supply} über {run}",
        BriefTalk { caller: &'a str }: "Talking, {caller}" | "Sprechen, {caller}",
        CableAndPair { cable: &'a str, pair: usize }: "{cable}, pair {pair}" | "{cable}, Paar {pair}",
        CardAfter { card: usize, title: &'a str }: "After: {card} {title}" | "Danach: {card} {title}",
        CardBefore { card: usize, title: &'a str }: "Before: {card} {title}" | "Davor: {card} {title}",
        CardNumber { card: usize }: "Card {card}" | "Karte {card}",
        CardOf { card: usize, of: usize }: "Card {card} of {of}" | "Karte {card} von {of}",
        CableOnCard { cable: &'a str, length: &'a str }: "{cable}, {length}" | same,
        OnOneCard { card: &'a str, whole: &'a str }: "Card {card}. {whole}" | "Karte {card}. {whole}",
        OnCards { cards: &'a str, whole: &'a str }: "Cards {cards}. {whole}" | "Karten {cards}. {whole}",
        PowerOffHere { off: &'a str }:
            "Power OFF, proved dead (stages {off})."
            | "Spannungsfrei, festgestellt (Abschnitte {off}).",
        PowerOffThenOn { off: &'a str, on: &'a str }:
            "First power OFF, proved dead (stages {off}); later power ON (stages {on})."
            | "Zuerst SPANNUNGSFREI, festgestellt (Abschnitte {off}); später UNTER SPANNUNG (Abschnitte {on}).",
        PowerOnHere { on: &'a str }: "Power ON (stages {on})." | "Unter Spannung (Abschnitte {on}).",
        RunAtCard { from: &'a str, cable: &'a str, length: &'a str }:
            "from {from}, {cable}, {length}"
            | "von {from}, {cable}, {length}",
        RunNamed { run: &'a str }: "Run {run}" | "Strang {run}",
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
            "Call to {dwelling}: it rings, speech is clear both ways, the picture (if any) is steady, the release opens. (The signal strength there could not be calculated.)"
            | "Ruf an {dwelling}: Es läutet, Sprache in beiden Richtungen klar, das Bild (falls vorhanden) steht, die Freigabe öffnet. (Die Signalstärke dort ließ sich nicht berechnen.)",
        CallWeakest { station: &'a str, in_hand: &'a str }:
            "Call to {station}, the weakest signal from here ({in_hand} in hand): it rings, speech is clear both ways, the picture (if any) is steady, the release opens."
            | "Ruf an {station}, das schwächste Signal von hier ({in_hand} Reserve): Es läutet, Sprache in beiden Richtungen klar, das Bild (falls vorhanden) steht, die Freigabe öffnet.",
        ConnectFeeder { run: &'a str }:
            "Connect run {run}: the boxes it feeds get power. Its current is read later, with everything beyond it."
            | "Strang {run} anschließen: Die Verteiler daran haben Spannung. Sein Strom wird später gemessen, mit allem dahinter.",
        ConnectRun { run: &'a str, from: &'a str }:
            "Connect run {run}; current at {from}, meter in series with one leg"
            | "Strang {run} anschließen; Strom an {from}, Messgerät in Reihe mit einer Ader",
        ContactNeeded { contact: &'a str }: "this lock needs: {contact}" | "dieses Schloss braucht: {contact}",
        CutAllowance { tolerance: &'a str, ends: &'a str, step: &'a str }:
            "Cut to: the stated length, {tolerance} more for its tolerance, and {ends} at each end for making off, rounded up to {step}."
            | "Ablängen auf: angegebene Länge, {tolerance} mehr für ihre Toleranz und {ends} je Ende zum Anschließen, aufgerundet auf {step}.",
        CutByTheMetre { name: &'a str, needed: &'a str }:
            "{name}: {needed}, bought to length (the catalogue states no drum lengths)"
            | "{name}: {needed}, nach Länge gekauft (der Katalog nennt keine Trommellängen)",
        CutProved { name: &'a str, drums: &'a str, needed: &'a str, bought: &'a str, waste: &'a str }:
            "{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; no cutting plan buys less"
            | "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; kein Schnittplan kauft weniger",
        CutTooLong { name: &'a str, needed: &'a str, piece: &'a str, longest: &'a str }:
            "{name}: {needed}, order to length: a piece of {piece} is longer than the longest drum of {longest}"
            | "{name}: {needed}, nach Länge bestellen: Ein Stück von {piece} ist länger als die längste Trommel von {longest}",
        CutWithBound { name: &'a str, drums: &'a str, needed: &'a str, bought: &'a str, waste: &'a str, bound: &'a str }:
            "{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; no cutting plan buys less than {bound}"
            | "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; kein Schnittplan kauft weniger als {bound}",
        DoorAgreed { door: &'a str }:
            "{door}: release, escape and fire interlock agreed with (name)"
            | "{door}: Freigabe, Fluchtweg und Brandfallsteuerung abgestimmt mit (Name)",
        DoorAgreedWithoutFire { door: &'a str }:
            "{door}: release and escape agreed with (name)"
            | "{door}: Freigabe und Fluchtweg abgestimmt mit (Name)",
        DeadOnceIsolated { supply: &'a str }:
            "The bus here is dead only once {supply} is isolated: prove it at the terminals, before you touch any."
            | "Der Bus ist hier erst spannungsfrei, wenn {supply} freigeschaltet ist: an den Klemmen prüfen, bevor sie jemand berührt.",
        DeadOnceIsolatedOnCard { supply: &'a str, steps: &'a str, card: usize }:
            "The bus here is dead only once {supply} is isolated ({steps}, card {card}): prove it at the terminals, before you touch any."
            | "Bus hier erst spannungsfrei, wenn {supply} freigeschaltet ist ({steps}, Karte {card}): an den Klemmen prüfen.",
        FitShort { run: &'a str, stops: Option<&'a str> }:
            "Run {run}: short-circuit its conductors here<, and see that they are joined through at {stops}>."
            | "Strang {run}: hier die Adern kurzschließen<; an {stops} müssen sie durchverbunden sein>.",
        RemoveShort { run: &'a str }:
            "Run {run}: take the short-circuit off again."
            | "Strang {run}: den Kurzschluss wieder entfernen.",
        DropInACall { caller: &'a str, station: &'a str }:
            "The same while {station} talks with {caller}: ________ V − ________ V ="
            | "Derselbe, während {caller} und {station} sprechen: ________ V − ________ V =",
        DropInStandby { from: &'a str, end: &'a str }:
            "Drop from {from} to {end}, standby, heaters off: ________ V − ________ V ="
            | "Spannungsfall von {from} bis {end}, Ruhe, Heizungen aus: ________ V − ________ V =",
        DropNote { accuracy: &'a str }:
            "A drop is the voltage at the start less that at the end. It shows a bad joint that one voltage alone does not show. Read both within a minute, with one meter on one range. In standby, lights and heaters of the doors are off and nobody calls; for a drop while talking they are on, and nobody else calls. Ohms named under a drop allow for every tolerance and {accuracy} between two readings of a meter (assumed). What would fail, fails in its worst state."
            | "Spannungsfall: Spannung am Anfang weniger Spannung am Ende. Er zeigt eine schlechte Verbindung, die eine Spannung allein nicht zeigt. Beide binnen einer Minute messen, mit einem Messgerät in einem Bereich. In Ruhe sind Licht und Heizung der Türen aus, kein Ruf; beim Sprechen sind sie an, sonst kein Ruf. Die darunter genannten Ohm lassen alle Toleranzen zu und {accuracy} zwischen zwei Messungen eines Geräts (angenommen). Wo ein Gerät als versagend genannt ist, gilt das in seinem ungünstigsten Betriebszustand.",
        DropInSection { section: &'a str }: "Drop on {section}" | "Spannungsfall auf {section}",
        ErrorsShort { count: &'a str }: "{count} ERRORS" | "{count} FEHLER",
        FeederCurrent { run: &'a str }:
            "Current of {run} with everything beyond it, meter in series with one leg where it starts"
            | "Strom von {run} mit allem dahinter, Messgerät in Reihe mit einer Ader am Anfang",
        CablesNotStated { cables: &'a str }:
            "The plan states neither type nor length of {cables} cable(s) at doors. Each is marked below and stands at the end of the cable list. They are missing from parts list and cut list, and their resistance from the figures of the locks."
            | "Zu {cables} Leitung(en) an Türen nennt der Plan weder Typ noch Länge. Jede ist unten bezeichnet und steht am Ende der Leitungsliste. Sie fehlen in Stückliste und Zuschnittliste, und ihr Widerstand in den Werten der Schlösser.",
        Connector { ways: &'a str }: "connector, {ways} ways" | "Verbindungsklemme, {ways} Leiter",
        SeveralAsStated { wires: &'a str }:
            "{wires} wires in this terminal, no more than it is stated to take"
            | "{wires} Adern an dieser Klemme, nicht mehr, als sie laut Angabe aufnimmt",
        SeveralInOneTerminal { wires: &'a str }:
            "{wires} wires in this terminal: use a terminal made for that many, or a connector"
            | "{wires} Drähte in dieser Klemme: Klemme für so viele Drähte nehmen, oder eine Verbindungsklemme",
        FurtherBattery { capacity: &'a str, voltage: &'a str, supply: &'a str }:
            "Battery {capacity}, {voltage}, in parallel with that of {supply}"
            | "Batterie {capacity}, {voltage}, parallel zu der von {supply}",
        FreePort { port: &'a str }: "port {port} is free" | "Abgang {port} ist frei",
        HeightRange { least: &'a str, most: &'a str, source: &'a str }:
            "published: {least} to {most} ({source})"
            | "veröffentlicht: {least} bis {most} ({source})",
        JointHides { end: &'a str, joint: &'a str, device: &'a str, fails: &'a str }:
            "In the last length before {end} a joint of less than {joint} would not show here, yet {device} fails from {fails}. Read also:"
            | "Auf der letzten Länge vor {end} zeigt sich hier keine Verbindung unter {joint}, doch {device} versagt schon ab {fails}. Auch messen:",
        JointShows { joint: &'a str, device: &'a str, fails: &'a str }:
            "Shows any joint of {joint} or more; from {fails} on {device} would fail."
            | "Zeigt jede Verbindung ab {joint}; ab {fails} würde {device} versagen.",
        JointShowsByLength { end: &'a str, joint: &'a str, device: &'a str, fails: &'a str, most: &'a str }:
            "Shows any joint of {joint} or more in the last length before {end}, where {device} would fail from {fails} on; in every other length any of {most} or more."
            | "Zeigt auf der letzten Länge vor {end} jede Verbindung ab {joint}; dort würde {device} ab {fails} versagen. Auf jeder anderen Länge zeigt es jede ab {most}.",
        JointShowsAndNoneFails { joint: &'a str }:
            "Shows any joint of {joint} or more."
            | "Zeigt jede Verbindung ab {joint}.",
        LinesWithoutPrice { parts: usize, small: usize }:
            "Not in the total, since they have no price: {parts:part|parts} of the plan, {small:kind|kinds} of small parts."
            | "Nicht in der Summe, weil ohne Preis: {parts:Teil|Teile} des Plans, {small:Art|Arten} Kleinteile.",
        TotalHolds { plan: &'a str, currency: &'a str }:
            "The total holds spare stations and whole drums. Without them, cable by the metre, it is {plan} {currency}. Estimates made while planning count so."
            | "Die Summe enthält Reservestationen und ganze Trommeln. Ohne sie, Leitung nach Metern, sind es {plan} {currency}. So rechnen Schätzungen beim Planen.",
        LockCalculation { door: &'a str, number: &'a str }:
            "{door}: lock {number}"
            | "{door}: Schloss {number}",
        LoopAgain { from: &'a str, end: &'a str }:
            "Even this reading may miss it. Switch the port off and unplug the electronics. Measure the loop from {from} again, far end {end} short-circuited. It should read as at first."
            | "Auch diese Messung kann sie übersehen. Abgang ausschalten, Geräteeinsätze abziehen. Die Schleife ab {from} noch einmal messen, fernes Ende {end} kurzgeschlossen. Sie soll zeigen, was sie zuerst zeigte.",
        MeasureCapacitance { from: &'a str, end: &'a str }:
            "Capacitance between the conductors from {from}, far end {end} open"
            | "Kapazität zwischen den Adern ab {from}, fernes Ende {end} offen",
        MeasureLoop { from: &'a str, end: &'a str, pairs: Option<usize> }:
            "Loop resistance from {from}, far end {end} short-circuited<, all {pairs} pairs joined in parallel at both ends>"
            | "Schleifenwiderstand ab {from}, fernes Ende {end} kurzgeschlossen<, alle {pairs} Paare an beiden Enden parallel>",
        MeasureLockLoopOfPairs { pairs: usize }:
            "Loop resistance of the cable, short-circuited at the lock, its {pairs} pairs joined in parallel at both ends"
            | "Schleifenwiderstand der Leitung, am Schloss kurzgeschlossen, ihre {pairs} Paare an beiden Enden parallel",
        OutputBeforeLock { voltage: Option<&'a str> }:
            "Output voltage of this supply before the lock is connected to it<; set it to {voltage} where it can be set>"
            | "Ausgangsspannung dieses Netzteils, bevor das Schloss daran angeschlossen wird<; wo einstellbar, auf {voltage} einstellen>",
        DelayedExit { time: &'a str }:
            "Push at the exit (or its button) as its sign says: the delay starts, a signal is heard, the door opens after {time} and never later. By stopwatch (the timer at most 10 % early, the hand within 0.5 s: assumed):"
            | "Am Ausgang drücken (oder auf seinen Taster), wie sein Schild sagt: Die Verzögerung beginnt, ein Signal ist zu hören, die Tür öffnet nach {time} und nie später. Mit der Stoppuhr (Zeitglied höchstens 10 % zu früh, Hand auf 0,5 s genau: angenommen):",
        CurrentAtMost { rated: &'a str }:
            "at most: rated {rated}, with its tolerance and a coil at the coldest"
            | "höchstens: Nennwert {rated}, mit Toleranz und kältester Spule",
        CurrentByInrush { rated: &'a str }: "inrush; rated {rated}" | "Einschaltstrom; Nennwert {rated}",
        PullUnstated { from: &'a str, to: &'a str }:
            "Pull from {from} to {to} and label both ends; the plan does not state this cable: write down type and length"
            | "Von {from} nach {to} einziehen, beide Enden beschriften; der Plan nennt diese Leitung nicht: Typ und Länge notieren",
        MeterNote { ohms: &'a str, amperes: &'a str }:
            "The ranges of resistances and currents also allow for a plain hand-held multimeter: of the reading {ohms}, and {amperes} (assumed). If yours is worse, allow more. Ranges of voltages are those of the system alone."
            | "Die Bereiche der Widerstände und Ströme lassen auch einem einfachen Handmultimeter Raum: vom Messwert {ohms}, und {amperes} (angenommen). Ist Ihres ungenauer, mehr zulassen. Die Bereiche der Spannungen sind die der Anlage allein.",
        ArticleNumber { number: &'a str }: "article {number}" | "Artikel {number}",
        EnclosureOf { name: &'a str, part: &'a str }: "Enclosure for {part}: {name}" | "Gehäuse für {part}: {name}",
        GlandsOf { name: &'a str, part: &'a str }:
            "Cable glands for one {part}: {name}"
            | "Kabelverschraubungen für ein {part}: {name}",
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
            | "An {end}, Geräteeinsätze abgezogen: + ist das + von {from}, − sein −, kein Kurzschluss dazwischen",
        PricesLeftOut { parts: &'a str, theirs: &'a str, own: &'a str }:
            "Lines with a price in {theirs} and none in {own}: {parts}. It is left out of every sum: state a rate of exchange in the catalogue, or prices in {own}."
            | "Zeilen mit Preis in {theirs} und keinem in {own}: {parts}. Er ist aus jeder Summe weggelassen: im Katalog einen Wechselkurs oder Preise in {own} angeben.",
        PricesIn { currency: &'a str }:
            "Prices in {currency}, without tax and labour."
            | "Preise in {currency}, ohne Steuer und Arbeit.",
        PullAndLabel { from: &'a str, to: &'a str }:
            "Pull from {from} to {to}; label both ends."
            | "Von {from} nach {to} ziehen; beide Enden beschriften.",
        FindAndLabel { from: &'a str, to: &'a str }:
            "In place already, from {from} to {to}: find and try both ends; label them."
            | "Liegt bereits von {from} nach {to}: beide Enden suchen, durchklingeln, beschriften.",
        CoilLetsGo { time: &'a str }: "; the coil lets go up to {time} later" | "; die Spule lässt bis zu {time} später los",
        ReleaseTime { time: &'a str, lets_go: &'a str }:
            "Release time: set to {time}. By stopwatch (the timer within 10 %, the hand within 0.5 s, both assumed{lets_go}):"
            | "Freigabezeit: eingestellt auf {time}. Mit der Stoppuhr (Zeitglied auf 10 %, Hand auf 0,5 s genau, beides angenommen{lets_go}):",
        SetAddress { address: &'a str, settings: &'a str }:
            "Set {address}: {settings}"
            | "Einstellen {address}: {settings}",
        SetVoltage { voltage: &'a str }: "Set the output to {voltage}." | "Ausgang auf {voltage} einstellen.",
        SetsWeighed { of: &'a str }:
            "with the worst of {of} combinations of calls"
            | "mit der ungünstigsten von {of} Rufkombinationen",
        SiteHasErrors { count: &'a str }:
            "THIS SITE HAS ERRORS ({count}): DO NOT BUILD FROM IT. See the snag list."
            | "DIESE ANLAGE HAT FEHLER ({count}): NICHT DANACH BAUEN. Siehe Mängelliste.",
        SpareRule { from: &'a str, of: &'a str }:
            "Spares: from {from} stations of a model on, one for each {of} or part of {of} (common practice). Cable: what is left on the drums."
            | "Reserve: ab {from} Stationen eines Modells eine je angefangene {of} (üblich). Leitung: Rest der Trommeln.",
        SumOfDrops { source: &'a str, drops: &'a str, off: Option<&'a str> }:
            "supply U₀ = {source}, drops on the way Σ R I = {drops}<; {off} taken off to be safe>"
            | "Speisung U₀ = {source}, Spannungsfälle Σ R I = {drops}<; {off} zur Sicherheit abgezogen>",
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
