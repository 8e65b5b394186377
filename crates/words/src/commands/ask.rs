//! `ask` and the sentence of `reach --total`: answers to say on the telephone.

use crate::row::{sentences, words};

words! {
    /// Where the power comes from, and heads.
    pub enum AskHead {
        OnMains: "on mains" | "am Netz",
        ToBatteryEnd: "to the battery's end" | "bis zum Ende der Batterie",
        AtTheLock: "at the lock" | "am Schloss",
        NotOutdoors: "(not made for outdoors)" | "(nicht für außen gemacht)",
    }
}

sentences! {
    /// What is answered. The first sentence is the one to say.
    pub enum AskWords<'a> {
        // How many on one run.
        HowMany { stations: usize, model: &'a str, total: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str }:
            "{stations} {model} work on {total} of {cable} {power}, from {supply} with {calls:call|calls} at once, {locks}."
            | "{stations} {model} arbeiten an {total} {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig, {locks}.",
        NotOne { model: &'a str, total: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str }:
            "Not even one {model} works on {total} of {cable} {power}, from {supply} with {calls:call|calls} at once, {locks}."
            | "Nicht einmal ein {model} arbeitet an {total} {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig, {locks}.",
        // The locks at the doors.
        DoorsHold { draws: &'a str }: "each door holding a {draws} lock" | "je Tür ein gehaltenes Schloss mit {draws}",
        DoorsHoldFromTheBus { lock: &'a str, draws: &'a str }:
            "each door holding a {lock}, {draws} more from the bus"
            | "je Tür ein gehaltenes {lock}, {draws} mehr vom Bus",
        DoorsHoldUnstated { lock: &'a str }: "each door holding a {lock}" | "je Tür ein gehaltenes {lock}",
        DoorsHoldNone: "no lock fed by a door" | "ohne Schloss, das eine Tür speist",
        LocksTaken { door: &'a str, lock: &'a str, draws: &'a str, length: &'a str, cable: &'a str }:
            "{door} feeds a {lock} behind {length} of {cable} and takes {draws} more from the bus while it holds it, as long as its call stands."
            | "{door} speist ein {lock} hinter {length} {cable} und nimmt {draws} mehr vom Bus, während es gehalten wird, solange der Ruf der Tür steht.",
        LocksNotCounted { door: &'a str, lock: &'a str }:
            "What {door} takes while it holds a {lock} is not stated in the catalogue (releasing_extra) and is not counted."
            | "Was {door} nimmt, während es ein {lock} hält, steht nicht im Katalog (releasing_extra) und ist nicht gezählt.",
        LocksOption:
            "Another lock: --lock NAME; none that a door feeds: --lock none."
            | "Ein anderes Schloss: --lock NAME; keines, das eine Tür speist: --lock none.",
        LocksOptionNone: "A lock that each door feeds: --lock NAME." | "Ein Schloss, das jede Tür speist: --lock NAME.",
        HaveBattery { supplies: &'a str }: "With one: {supplies}; name it with --supply." | "Mit einer: {supplies}; mit --supply nennen.",
        HowManyApart { stations: usize, model: &'a str, spacing: &'a str, total: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str }:
            "{stations} {model}, {spacing} from one to the next and {total} in all, work on {cable} {power}, from {supply} with {calls:call|calls} at once, {locks}."
            | "{stations} {model} im Abstand von je {spacing}, zusammen {total}, arbeiten an {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig, {locks}.",
        NotOneApart { model: &'a str, spacing: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str }:
            "Not even one {model} works {spacing} away on {cable} {power}, from {supply} with {calls:call|calls} at once, {locks}."
            | "Nicht einmal ein {model} arbeitet im Abstand von {spacing} an {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig, {locks}.",
        UnderApart { distributor: &'a str, feed: &'a str, feed_cable: &'a str }:
            "The first station is as far from the port of {distributor} as each from the next; {feed} of {feed_cable} from the supply to the distributor."
            | "Die erste Station ist so weit vom Abgang von {distributor} wie jede von der nächsten; {feed} {feed_cable} vom Netzteil zum Verteiler.",
        Other { power: &'a str, supply: &'a str, stations: usize }:
            "From {supply} {power}: {stations}."
            | "Gespeist von {supply} {power}: {stations}.",
        FewerFail { power: &'a str, counts: &'a str, title: &'a str }:
            "But {counts} do not work {power}, although more do: {title}."
            | "Aber {counts} gehen nicht {power}, obwohl mehr gehen: {title}.",
        OneMore { power: &'a str, title: &'a str }:
            "One more does not work {power}: {title}."
            | "Eine mehr arbeitet {power} nicht: {title}.",
        WhyNone { power: &'a str, title: &'a str }:
            "What prevents it {power}: {title}."
            | "Was dem entgegensteht, {power}: {title}.",
        NoMore { most: usize }: "More than {most} stations were not tried." | "Mehr als {most} Stationen wurden nicht versucht.",
        HeaviestTaken { model: &'a str, lightest: &'a str, stations: usize, power: &'a str }:
            "No model was named, so {model}, the heaviest, was taken; of {lightest}, the lightest, {stations} work {power}. Name yours for its own figure."
            | "Kein Modell war genannt, also wurde {model} genommen, das schwerste; von {lightest}, dem leichtesten, arbeiten {stations} {power}. Das eigene nennen, dann gilt dessen Zahl.",
        HeaviestTakenNone { model: &'a str, lightest: &'a str, power: &'a str }:
            "No model was named, so {model}, the heaviest, was taken; of {lightest}, the lightest, none works either {power}."
            | "Kein Modell war genannt, also wurde {model} genommen, das schwerste; auch von {lightest}, dem leichtesten, arbeitet keine {power}.",
        Margin { stations: usize, power: &'a str, margin: &'a str }:
            "With {stations} {power} the worst-placed station has {margin} V more than it needs, at its worst moment."
            | "Bei {stations} {power} hat die knappste Station im ungünstigsten Zustand {margin} V Reserve.",
        MarginThin { stations: usize, power: &'a str, margin: &'a str }:
            "With {stations} {power} the worst-placed station has {margin} V more than it needs, at its worst moment, which check warns of as thin-margin: plan for one less, or thicker cable."
            | "Bei {stations} {power} hat die knappste Station im ungünstigsten Zustand {margin} V Reserve, wovor check als thin-margin warnt: eine weniger planen oder dickere Leitung.",
        RunNotJudged { codes: &'a str }:
            "Not judged, since values are missing, so that it may still not work: {codes}."
            | "Nicht beurteilt, da Werte fehlen, sodass es doch nicht gehen kann: {codes}.",
        Under { distributor: &'a str, feed: &'a str, feed_cable: &'a str }:
            "Stations spread evenly along one run from a port of {distributor}, {feed} of {feed_cable} from the supply to it."
            | "Stationen gleichmäßig an einem Strang von einem Abgang von {distributor}, {feed} {feed_cable} vom Netzteil dorthin.",
        HeaterOff { door: &'a str }:
            "The heater of {door} is counted off: with it on, check the site file, where `heater = true` stands at the entrance."
            | "Die Heizung von {door} ist ausgeschaltet gerechnet: mit ihr die Anlagendatei prüfen, in der am Eingang `heater = true` steht.",
        RunJudged:
            "Checked as a whole site is, signal and start-up included, every tolerance at its worst; where the family asks for terminators, every run ends in one."
            | "Geprüft wie eine ganze Anlage, mit Signal und Anlauf, jede Toleranz ungünstigst; wo die Familie Abschlüsse verlangt, hat jeder Strang einen.",
        RunJudgedOtherwise:
            "But for what is not judged, checked as a whole site is, every tolerance at its worst; where the family asks for terminators, every run ends in one."
            | "Bis auf das nicht Beurteilte geprüft wie eine ganze Anlage, jede Toleranz ungünstigst; wo die Familie Abschlüsse verlangt, hat jeder Strang einen.",
        // A lock's cable.
        LockNeeds { lock: &'a str, length: &'a str, cable: &'a str, door: &'a str, supply: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} from {door}, {supply} on mains with one call: take {cable} or thicker; it then has {voltage} V and needs {needs} V."
            | "{lock} über {length} aus {door}, {supply} am Netz bei einem Ruf: {cable} oder dicker nehmen; es hat dann {voltage} V und braucht {needs} V.",
        LockHolds { lock: &'a str, length: &'a str, cable: &'a str, door: &'a str, supply: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} of {cable} from {door}, {supply} on mains with one call, works: it has {voltage} V and needs {needs} V."
            | "{lock} über {length} {cable} aus {door}, {supply} am Netz bei einem Ruf, arbeitet: Es hat {voltage} V und braucht {needs} V.",
        LockFails { lock: &'a str, length: &'a str, cable: &'a str, door: &'a str, supply: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} of {cable} from {door}, {supply} on mains with one call, does not work: {voltage} V arrive, and it needs {needs} V."
            | "{lock} über {length} {cable} aus {door}, {supply} am Netz bei einem Ruf, arbeitet nicht: Es kommen {voltage} V an, und es braucht {needs} V.",
        LockFailsOnOnePair { lock: &'a str, length: &'a str, cable: &'a str, door: &'a str, supply: &'a str, voltage: &'a str, needs: &'a str, doubled: &'a str }:
            "{lock} over {length} of {cable} from {door}, {supply} on mains with one call, works on two of its pairs in parallel, where it has {doubled} V; on one it does not work: {voltage} V arrive, and it needs {needs} V."
            | "{lock} über {length} {cable} aus {door}, {supply} am Netz bei einem Ruf, arbeitet an zwei ihrer Paare parallel, dort hat es {doubled} V; an einem arbeitet es nicht: Es kommen {voltage} V an, und es braucht {needs} V.",
        LockNeedsTwoPairs { lock: &'a str, length: &'a str, cable: &'a str, door: &'a str, supply: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} from {door}, {supply} on mains with one call: take two pairs of {cable} in parallel; it then has {voltage} V and needs {needs} V."
            | "{lock} über {length} aus {door}, {supply} am Netz bei einem Ruf: zwei parallele Paare von {cable} nehmen; es hat dann {voltage} V und braucht {needs} V.",
        LockOnePair { cable: &'a str, longest: Option<&'a str> }:
            "With one pair no cable of the catalogue does<; {cable} reaches {longest}>."
            | "Mit einem Paar genügt keine Leitung des Katalogs<; {cable} reicht {longest}>.",
        LockOnePairOutdoors { cable: &'a str, longest: Option<&'a str> }:
            "With one pair no cable of the catalogue that is made for outdoors does<; {cable} reaches {longest}>."
            | "Mit einem Paar genügt keine für außen gemachte Leitung des Katalogs<; {cable} reicht {longest}>.",
        LockRefused { lock: &'a str, door: &'a str, why: &'a str }:
            "{lock} does not work from {door}, whatever its cable: {why}."
            | "{lock} arbeitet nicht aus {door}, gleich mit welcher Leitung: {why}.",
        LockDryContact { lock: &'a str, length: &'a str }:
            "{lock} has power of its own and takes a dry contact: nothing is fed over the {length}, so any cable made for where it runs does. Wire it to the relay contact of the door station."
            | "{lock} hat eigene Spannung und nimmt einen potenzialfreien Kontakt: Über die {length} wird nichts gespeist, jede für die Umgebung gemachte Leitung genügt. An den Relaiskontakt der Türstation anschließen.",
        LockTooFar { lock: &'a str, length: &'a str, door: &'a str, supply: &'a str, cable: &'a str, longest: Option<&'a str> }:
            "No cable of the catalogue feeds {lock} over {length} from {door}, {supply} on mains with one call<; {cable} reaches {longest}>."
            | "Keine Leitung des Katalogs speist {lock} über {length} aus {door}, {supply} am Netz bei einem Ruf<; {cable} reicht {longest}>.",
        LockLongest { cable: &'a str, longest: &'a str }:
            "On {cable} it works up to {longest}."
            | "Mit {cable} arbeitet es bis {longest}.",
        LockTooFarOutdoors { lock: &'a str, length: &'a str, door: &'a str, supply: &'a str, cable: &'a str, longest: Option<&'a str> }:
            "No cable of the catalogue that is made for outdoors feeds {lock} over {length} from {door}, {supply} on mains with one call<; {cable} reaches {longest}>."
            | "Keine für außen gemachte Leitung des Katalogs speist {lock} über {length} aus {door}, {supply} am Netz bei einem Ruf<; {cable} reicht {longest}>.",
        LockOwnSupply { cable: &'a str, supply: &'a str, tolerance: &'a str, voltage: &'a str }:
            "Way out: a supply of the lock's own at {supply}, {tolerance} %, beside the door station: over {cable} the lock then has at least {voltage} V."
            | "Ausweg: ein eigenes Netzteil für das Schloss mit {supply}, {tolerance} %, neben der Türstation: Über {cable} hat das Schloss dann mindestens {voltage} V.",
        LockOwnSupplyToo { cable: &'a str, supply: &'a str, tolerance: &'a str, voltage: &'a str }:
            "Or a supply of the lock's own at {supply}, {tolerance} %, beside the door station: over {cable} the lock then has at least {voltage} V."
            | "Oder ein eigenes Netzteil für das Schloss mit {supply}, {tolerance} %, neben der Türstation: Über {cable} hat das Schloss dann mindestens {voltage} V.",
        TwoPairsOf { cable: &'a str }:
            "two pairs of {cable} in parallel (pairs = 2 at the lock)"
            | "zwei Paare {cable} parallel (am Schloss pairs = 2)",
        OwnSupplyOpens:
            "With the mains lost the lock then opens, unless that supply has a battery."
            | "Bei Netzausfall öffnet das Schloss dann, außer dieses Netzteil hat eine Batterie.",
        OwnSupplyStaysShut:
            "With the mains lost the lock then cannot be released, unless that supply has a battery."
            | "Bei Netzausfall lässt sich das Schloss dann nicht freigeben, außer dieses Netzteil hat eine Batterie.",
        LockDoubled { longest: &'a str }:
            "Two of its pairs in parallel reach {longest}: write pairs = 2 at the lock."
            | "Zwei ihrer Paare parallel reichen {longest}: am Schloss pairs = 2 schreiben.",
        LockNoWay:
            "No usual supply of its own beside the door station carries it over one or two pairs of any cable of the catalogue made for there: put a supply at the lock and switch it by a relay."
            | "Auch kein übliches eigenes Netzteil neben der Türstation speist es über ein oder zwei Paare einer dafür gemachten Leitung des Katalogs: ein Netzteil ans Schloss setzen und über ein Relais schalten.",
        LockUnsuited { cable: &'a str }:
            "{cable} is not made for outdoors, which check warns of."
            | "{cable} ist nicht für außen gemacht, wovor check warnt.",
        LockIndoors:
            "For a cable that runs indoors; for a door outdoors ask with --outdoors."
            | "Für eine Leitung im Gebäude; für eine Tür im Freien mit --outdoors fragen.",
        LockOutdoors: "For a cable that runs outdoors." | "Für eine Leitung im Freien.",
        LockNotJudged { lock: &'a str }:
            "Whether the door station feeds {lock} cannot be judged: its catalogue entry lacks a figure (voltage, current or lock output). latchline catalogue {lock} shows what is known."
            | "Ob die Türstation {lock} speist, ist nicht zu beurteilen: Im Katalog fehlt eine Angabe (Spannung, Strom oder Türöffner-Ausgang). latchline catalogue {lock} zeigt, was bekannt ist.",
        LockReaches { longest: &'a str }: "reaches {longest}" | "reicht {longest}",
        LockUnder { door: &'a str, supply: &'a str, hot: &'a str }:
            "Fed from the lock output of {door}, which {supply} feeds on mains with one call; both conductors and their joints counted, at {hot}, with every tolerance at its worst."
            | "Gespeist vom Türöffner-Ausgang von {door}, diese von {supply} am Netz bei einem Ruf; beide Adern und ihre Klemmstellen gezählt, bei {hot}, jede Toleranz im ungünstigsten Sinn.",
        // A battery.
        Hours { verdict: Option<&'a str>, time: &'a str, supply: &'a str, stations: usize, model: &'a str, door: &'a str, calls: usize, locks: &'a str, batteries: usize, capacity: &'a str }:
            "<{verdict}: >{supply} with an old battery carries {stations} {model} and one {door} for {time} in standby without a call; {calls:call|calls} at once may then stand, {locks} ({batteries:battery|batteries}, {capacity} Ah in all)."
            | "<{verdict}: >{supply} trägt mit gealterter Batterie {stations} {model} und ein {door} {time} in Ruhe ohne Ruf; {calls:Ruf darf|Rufe dürfen} dann gleichzeitig stehen, {locks} ({batteries:Batterie|Batterien}, zusammen {capacity} Ah).",
        HoursShared { verdict: Option<&'a str>, supplies: usize, time: &'a str, supply: &'a str, stations: usize, each: usize, model: &'a str, door: &'a str, calls: usize, locks: &'a str, batteries: usize, capacity: &'a str }:
            "<{verdict}: >{supplies} {supply} with old batteries carry {stations} {model}, at most {each} and one {door} on each, for {time} in standby without a call; {calls:call|calls} at once may then stand on each, {locks} ({batteries:battery|batteries} on each, {capacity} Ah)."
            | "<{verdict}: >{supplies} {supply} tragen mit gealterten Batterien {stations} {model}, höchstens {each} und ein {door} an jedem, {time} in Ruhe ohne Ruf; {calls:Ruf darf|Rufe dürfen} dann an jedem gleichzeitig stehen, {locks} ({batteries:Batterie|Batterien} an jedem, {capacity} Ah).",
        HoursTwoBuses:
            "Each supply is a bus of its own: a door station calls only the stations on its own, unless the family joins buses over a signal link."
            | "Jedes Netzteil ist ein eigener Bus: Eine Türstation ruft nur die Stationen an ihrem, außer die Gerätefamilie verbindet Busse über einen Signaleingang.",
        HoursAlone { hours: &'a str }: "{hours} h" | same,
        HoursHeated { heated: &'a str, hours: &'a str }:
            "{heated} h with its heater on and {hours} h without,"
            | "{heated} h mit dessen Heizung und {hours} h ohne,",
        HoursBroken { stations: usize, model: &'a str, supply: &'a str, titles: &'a str, current: Option<&'a str>, rated: Option<&'a str>, calls: usize, locks: &'a str }:
            "{stations} {model} do not work on one {supply} with {calls:call|calls} at once, {locks}, whatever its battery: {titles}< (largest current {current} A>< of {rated} A)>."
            | "{stations} {model} arbeiten nicht an einem {supply} mit {calls:Ruf|Rufen} gleichzeitig, {locks}, gleich mit welcher Batterie: {titles}< (größter Strom {current} A>< von {rated} A)>.",
        LightestBattery { heaviest: &'a str, lightest: &'a str, stations: usize, supplies: usize, supply: &'a str, batteries: usize, hours: &'a str }:
            "No model was named, so {heaviest}, the heaviest, was taken; {stations} {lightest}, the lightest, last {hours} h on {supplies} {supply} with {batteries:battery|batteries}. Name yours with --station for its own figure."
            | "Kein Modell war genannt, also wurde {heaviest} genommen, das schwerste; {stations} {lightest}, das leichteste, laufen {hours} h an {supplies} {supply} mit {batteries:Batterie|Batterien}. Das eigene mit --station nennen, dann gilt dessen Zahl.",
        LightestShort { heaviest: &'a str, lightest: &'a str, stations: usize, supply: &'a str, batteries: usize, hours: &'a str }:
            "No model was named, so {heaviest}, the heaviest, was taken; {stations} {lightest}, the lightest, fall short too: {hours} h on {supply} with {batteries:battery|batteries}. Name yours with --station for its own figure."
            | "Kein Modell war genannt, also wurde {heaviest} genommen, das schwerste; auch {stations} {lightest}, das leichteste, laufen zu kurz: {hours} h an {supply} mit {batteries:Batterie|Batterien}. Das eigene mit --station nennen, dann gilt dessen Zahl.",
        LightestBroken { heaviest: &'a str, lightest: &'a str, stations: usize, supply: &'a str, titles: &'a str }:
            "No model was named, so {heaviest}, the heaviest, was taken; {stations} {lightest}, the lightest, do not work on {supply} either: {titles}. Name yours with --station for its own figure."
            | "Kein Modell war genannt, also wurde {heaviest} genommen, das schwerste; auch {stations} {lightest}, das leichteste, arbeiten nicht an {supply}: {titles}. Das eigene mit --station nennen, dann gilt dessen Zahl.",
        HoursOfFewer { supply: &'a str }:
            "The hours on {supply} are not said, since so many do not work on it; ask again with fewer."
            | "Die Stunden an {supply} sind nicht genannt, da so viele daran nicht arbeiten; mit weniger erneut fragen.",
        ChargerSlow { hours: &'a str }:
            "The charger takes {hours} h to fill them again, more than a day: check warns of charger-too-small."
            | "Das Ladegerät braucht {hours} h, um sie wieder zu füllen, mehr als einen Tag: check warnt mit charger-too-small.",
        HoursShortWithHeater { wanted: &'a str }:
            "No for {wanted} h with the door station's heater on, yes without it"
            | "Nein für {wanted} h mit der Heizung der Türstation, ja ohne sie",
        HoursEnough { wanted: &'a str, batteries: Option<usize> }:
            "Yes for {wanted} h<, with {batteries} batteries in parallel>"
            | "Ja für {wanted} h<, mit {batteries} Batterien parallel>",
        HoursEnoughShared { wanted: &'a str, supplies: usize, batteries: usize }:
            "Yes for {wanted} h, with {supplies} supplies and {batteries:battery|batteries}"
            | "Ja für {wanted} h, mit {supplies} Netzteilen und {batteries:Batterie|Batterien}",
        HoursShort { wanted: &'a str }: "No for {wanted} h" | "Nein für {wanted} h",
        HoursShortHelp:
            "More batteries were not tried: share the stations between more supplies, or take a larger battery."
            | "Mehr Batterien wurden nicht versucht: die Stationen auf mehr Netzteile verteilen oder eine größere Batterie nehmen.",
        HoursOtherHouses { also: &'a str }:
            "With at most {also} on a port it does not work either."
            | "Mit höchstens {also} an einem Abgang geht es auch nicht.",
        HoursHouse { boxes: usize, distributor: &'a str, on_a_port: usize }:
            "Counted with {boxes} {distributor} for them, at most {on_a_port} stations on a port; a house with fewer boxes lasts longer."
            | "Gerechnet mit {boxes} {distributor} dafür, höchstens {on_a_port} Stationen an einem Abgang; mit weniger Verteilern reicht es länger.",
        HoursHouseOnEach { boxes: usize, distributor: &'a str, on_a_port: usize }:
            "Counted with {boxes} {distributor} on each supply, at most {on_a_port} stations on a port; a house with fewer boxes lasts longer."
            | "Gerechnet mit {boxes} {distributor} an jedem Netzteil, höchstens {on_a_port} Stationen an einem Abgang; mit weniger Verteilern reicht es länger.",
        CurrentAlone { current: &'a str }: "{current} A" | same,
        CurrentHeated { heated: &'a str, current: &'a str }:
            "{heated} A with the heater on and {current} A without"
            | "{heated} A mit Heizung und {current} A ohne",
        HoursUnder { current: &'a str, capacity: &'a str, counted: &'a str, ambient: &'a str }:
            "The battery gives {current}; of {capacity} Ah {counted} Ah are counted: aged to four fifths, at {ambient}. Calls shorten the time: state `standby_hours` and `calls_per_hour` in the site file and check it."
            | "Die Batterie gibt {current}; von {capacity} Ah sind {counted} Ah gerechnet: gealtert auf vier Fünftel, bei {ambient}. Rufe verkürzen die Zeit: `standby_hours` und `calls_per_hour` in der Anlagendatei angeben und prüfen.",
        NoBattery { supply: &'a str }:
            "{supply} has no battery."
            | "{supply} hat keine Batterie.",
        BatteryNotJudged { supply: &'a str }:
            "The hours of {supply} cannot be judged: its catalogue entry lacks a figure of its battery. latchline catalogue {supply} shows what is known."
            | "Die Stunden von {supply} sind nicht zu beurteilen: Im Katalog fehlt eine Angabe ihrer Batterie. latchline catalogue {supply} zeigt, was bekannt ist.",
        // A mix.
        MixWorks { mix: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str }:
            "Yes, {mix} on one {supply}: that works {power} with {calls:call|calls} at once, {locks}."
            | "Ja, {mix} an einem {supply}: Das geht {power} mit {calls:Ruf|Rufen} gleichzeitig, {locks}.",
        MixFails { mix: &'a str, power: &'a str, supply: &'a str, calls: usize, locks: &'a str, title: &'a str }:
            "No, {mix} on one {supply}: that does not work {power} with {calls:call|calls} at once, {locks}: {title}."
            | "Nein, {mix} an einem {supply}: Das geht {power} nicht mit {calls:Ruf|Rufen} gleichzeitig, {locks}: {title}.",
        MixFigures { supply: &'a str, shares: Option<&'a str>, current: Option<&'a str>, rated: Option<&'a str> }:
            "For {supply}<, the shares of the data sheet's counts add up to {shares}, 1 being full (common practice)><, the largest current is {current} A>< of {rated} A>."
            | "{supply}<, Anteile an den Stückzahlen des Datenblatts: {shares}, bei 1 ist es voll (übliche Praxis)><, größter Strom: {current} A>< von {rated} A>.",
        MixUnder:
            "Taken on short runs of thick cable and checked as a whole site is. Long or thin cable carries fewer."
            | "Angenommen an kurzen Strängen aus dicker Leitung und geprüft wie eine ganze Anlage. Lange oder dünne Leitung trägt weniger.",
        // Switches.
        Switches { family: &'a str, numbers: &'a str, settings: &'a str }:
            "Indoor station of {family}, {numbers}: {settings}."
            | "Innenstation von {family}, {numbers}: {settings}.",
        SwitchesAssumed { assumed: &'a str, family: &'a str, numbers: &'a str, settings: &'a str }:
            "If {assumed}, indoor station of {family}, {numbers}: {settings}."
            | "Wenn {assumed}: Innenstation von {family}, {numbers}: {settings}.",
        AssumedNumber { name: &'a str, number: usize, asked: &'a str }:
            "{number} is the number of {name} (in a site file: latchline addresses SITE {asked})"
            | "{number} die Nummer von {name} ist (in einer Anlagendatei: latchline addresses ANLAGE {asked})",
        AssumedBuilding { number: usize }:
            "the building is {number} (else --building N)"
            | "es Gebäude {number} ist (sonst --building N)",
        AssumedExtension { second: &'a str }:
            "its main station is meant (the second: {second})"
            | "die Hauptstation gemeint ist (die zweite: {second})",
        AssumedOther { field: &'a str, number: usize }:
            "its {field} is {number} (only a site file says another)"
            | "{field} {number} gilt (anderes sagt nur eine Anlagendatei)",
        AssumedBoth { first: &'a str, last: &'a str }: "{first} and {last}" | "{first} und {last}",
        NoSuchStation { station: usize, family: &'a str, most: usize }:
            "Station {station} of a dwelling cannot be set: the switches of {family} have room for {most}."
            | "Station {station} einer Wohnung lässt sich nicht einstellen: Die Schalter von {family} reichen für {most}.",
        Reserved { field: &'a str, number: usize, family: &'a str }:
            "{field} {number} cannot be set: {family} keeps it for something else. Take another number."
            | "{field} {number} lässt sich nicht einstellen: {family} hält die Nummer für anderes frei. Eine andere Nummer nehmen.",
        OutOfRange { field: &'a str, number: usize, low: usize, high: usize }:
            "{field} {number} cannot be set: its switches go from {low} to {high}."
            | "{field} {number} lässt sich nicht einstellen: Die Schalter gehen von {low} bis {high}.",
        Caution:
            "A calculation, not a certificate; check the real site with: latchline check"
            | "Eine Berechnung, kein Nachweis; die wirkliche Anlage prüfen mit: latchline check",
    }
}
