//! The sheets of one door and of one supply.

use crate::row::{sentences, words};

words! {
    /// A label at the left of a fact, of at most twelve signs.
    pub enum Label {
        AskedFor: "Asked for" | "Gefordert",
        Calls: "Calls" | "Rufe",
        ColdestAir: "Coldest air" | "Kälteste Luft",
        Battery: "Battery" | "Batterie",
        Cable: "Cable" | "Leitung",
        Capacity: "Capacity" | "Kapazität",
        Cupboard: "Cupboard" | "Schrank",
        Heater: "Heater" | "Heizung",
        Height: "Height" | "Höhe",
        Inside: "Inside" | "Innen",
        Load: "Load" | "Last",
        Locks: "Locks" | "Schlösser",
        Mains: "Mains" | "Netz",
        MainsBack: "Mains back" | "Netz zurück",
        MainsLost: "Mains lost" | "Netzausfall",
        Mind: "Mind" | "Beachten",
        Model: "Model" | "Modell",
        Panel: "Panel" | "Tableau",
        Place: "Place" | "Ort",
        Power: "Power" | "Versorgung",
        Role: "Role" | "Rolle",
        Station: "Station" | same,
        Times: "Times" | "Zeiten",
        Voltage: "Voltage" | "Spannung",
        What: "What" | "Was",
        Wiring: "Wiring" | "Verdrahtung",
    }
}

words! {
    /// Heads of blocks and columns of a sheet.
    pub enum SheetHead {
        AlarmInputs: "Alarm inputs" | "Meldeeingänge",
        Battery: "Battery" | "Batterie",
        BatteryAmperes: "Battery A" | "Batterie A",
        BatteryAmperesNamed: "{} A from the battery" | "{} A aus der Batterie",
        Calculation: "Calculation" | "Berechnung",
        CurrentMilliamperes: "Current mA" | "Strom mA",
        Day: "day" | "Tag",
        DayNamed: "{} mA by day" | "{} mA bei Tag",
        FedFrom: "Fed from" | "Gespeist aus",
        FedFromNamed: "from {}" | "aus {}",
        FigureFrom: "Figure from" | "Wert aus",
        FigureFromNamed: "from {}" | "aus {}",
        Findings: "Findings" | "Befunde",
        Hours: "Hours" | "Stunden",
        Kind: "Kind" | "Art",
        Light: "Light" | "Leuchte",
        Lights: "Lights" | "Leuchten",
        LoadWatts: "Load W" | "Last W",
        Model: "Model" | "Modell",
        Module: "Module" | "Modul",
        Modules: "Modules in their chain, by address" | "Module in ihrer Kette, nach Adresse",
        Night: "night" | "Nacht",
        NightNamed: "{} mA by night" | "{} mA bei Nacht",
        Number: "No." | "Nr.",
        On: "On" | "An",
        OnNamed: "on {}" | "an {}",
        Part: "Part" | "Teil",
        Rated: "Rated" | "Nennwerte",
        Rules:
            "Rules to look at with the responsible person"
            | "Mit der verantwortlichen Person zu beachtende Regeln",
        State: "State" | "Zustand",
        Together: "together" | "zusammen",
    }
}

sentences! {
    /// What stands on a sheet.
    pub enum SheetWords<'a> {
        Caution:
            "A calculation and advice, not a certificate. Local codes and the responsible person prevail."
            | "Berechnung und Rat, kein Nachweis. Örtliche Vorschriften und die verantwortliche Person gehen vor.",
        // Calculation lines and findings.
        NeedsAtLeast { limit: &'a str }: "needs at least {limit}" | "mindestens {limit} nötig",
        MayBeAtMost { limit: &'a str }: "may be at most {limit}" | "höchstens {limit} zulässig",
        Holds: "good" | "in Ordnung",
        DoesNotHold: "NOT good" | "NICHT in Ordnung",
        NotJudgedFor { code: &'a str, missing: &'a str }:
            "not judged: {code}: needs {missing}"
            | "nicht beurteilt: {code}: braucht {missing}",
        NotJudged { missing: &'a str }: "not judged; needs {missing}" | "nicht beurteilt; braucht {missing}",
        NotStated: "not stated" | "nicht angegeben",
        None: "none" | "keine",
        // The head of a door.
        Door { name: &'a str }: "Door {name}" | "Tür {name}",
        PlaceOutdoors { place: &'a str }: "{place}, outdoors" | "{place}, außen",
        LockOutputs { station: &'a str, outputs: usize }:
            "{station}, {outputs:lock output|lock outputs}"
            | "{station}, {outputs:Schlossausgang|Schlossausgänge}",
        EscapeRoute { decided: &'a str }: "escape route ({decided})" | "Fluchtweg ({decided})",
        NoEscapeRoute { decided: &'a str }: "not an escape route ({decided})" | "kein Fluchtweg ({decided})",
        EscapeRouteNotKnown { told: Option<&'a str> }:
            "not known< ({told})> whether it is an escape route: not judged"
            | "nicht bekannt< ({told})>, ob sie Fluchtweg ist: nicht beurteilt",
        GateNotKnown { told: Option<&'a str> }:
            "not known< ({told})> whether it is an escape route; a gate is not judged as one: its owner answers for opening it by hand"
            | "nicht bekannt< ({told})>, ob es Fluchtweg ist; ein Tor wird nicht als solcher beurteilt: wer es betreibt, steht für das Öffnen von Hand ein",
        Decided { by: &'a str, on: &'a str }: "decided by {by}, {on}" | "entschieden von {by}, {on}",
        DecidedByNobody { on: &'a str }:
            "not said who decided it, {on}" | "nicht angegeben, wer es entschied, {on}",
        NoDate: "no date" | "kein Datum",
        FireInterlock: "fire interlock" | "Brandfallsteuerung",
        NoFireInterlock: "no fire interlock" | "keine Brandfallsteuerung",
        FireInterlockNotStated:
            "fire interlock not stated (counted as none)"
            | "Brandfallsteuerung nicht angegeben (als nicht vorhanden gerechnet)",
        HeightRange { least: &'a str, most: &'a str, source: &'a str }:
            "{least} to {most} by {source}"
            | "{least} bis {most} nach {source}",
        ControlsAt { height: &'a str, published: &'a str }:
            "controls at {height}; {published}"
            | "Bedienelemente auf {height}; {published}",
        HeightNotStated { published: &'a str }: "not stated; {published}" | "nicht angegeben; {published}",
        HeaterAtNight: "fitted, on at night" | "eingebaut, bei Nacht an",
        NotStatedNone: "not stated (counted as none)" | "nicht angegeben (als nicht vorhanden gerechnet)",
        // Locks.
        Lock { number: usize, model: &'a str }: "Lock {number}: {model}" | "Schloss {number}: {model}",
        LockWhat { title: &'a str, kind: &'a str, power_loss: &'a str, current: &'a str }:
            "{title}: {kind}, {power_loss}, for {current}"
            | "{title}: {kind}, {power_loss}, für {current}",
        CableToPart { part: &'a str, cable: &'a str }: "{part}: {cable}" | same,
        PartCableNotCounted { part: &'a str }:
            "{part}: not stated; its resistance is not in the figures"
            | "{part}: nicht angegeben; ihr Widerstand steckt nicht in den Werten",
        PartCableNotStated { part: &'a str }: "{part}: not stated" | "{part}: nicht angegeben",
        AdverseCorner:
            "with every tolerance at its worst, except where it says nominal:"
            | "alle Toleranzen ungünstigst, außer bei der Nennspannung:",
        NoVoltageNeeded:
            "none needed: the drive has power of its own"
            | "keine nötig: Der Antrieb hat eigene Versorgung",
        NothingFeedsIt { missing: &'a str }:
            "nothing feeds it; missing: {missing}"
            | "nicht gespeist; es fehlt: {missing}",
        BusCollapses:
            "not judged: the voltage collapses there"
            | "nicht beurteilt: Die Spannung bricht dort zusammen",
        ContactNeeded { stated: &'a str, needed: &'a str }:
            "the plan says {stated}; this lock needs {needed}"
            | "im Plan steht {stated}; dieses Schloss braucht {needed}",
        CoilWhileShut { contact: &'a str }:
            "coil of the relay in between: energised while the door is shut, through the station's {contact}"
            | "Spule des Koppelrelais: bestromt, solange die Tür zu ist, über {contact} der Station",
        CoilToRelease { contact: &'a str }:
            "coil of the relay in between: energised to release, through the station's {contact}"
            | "Spule des Koppelrelais: bestromt zur Freigabe, über {contact} der Station",
        AcrossContact { element: &'a str }:
            "across the relay's contact: {element}"
            | "parallel zum Relaiskontakt: {element}",
        AcrossLock { part: &'a str }: "across the lock: {part}" | "parallel zum Schloss: {part}",
        // Times.
        HoldOfStationWins { hold: &'a str, plan: &'a str }:
            "released for {hold}: the door station's own setting wins over the plan's {plan}"
            | "freigegeben für {hold}: die Einstellung der Türstation geht den {plan} des Plans vor",
        HoldOfStation { hold: &'a str }:
            "released for {hold}, the door station's own setting"
            | "freigegeben für {hold}, Einstellung der Türstation",
        Hold { hold: &'a str }: "released for {hold}" | "freigegeben für {hold}",
        HoldByDefault { hold: &'a str }:
            "released for {hold} (not stated; assumed)"
            | "freigegeben für {hold} (nicht angegeben; angenommen)",
        EnergisedWhileReleased: "energised while released" | "bestromt während der Freigabe",
        EnergisedWhileShut: "energised while shut" | "bestromt, solange zu",
        AtMostAtAStretch { time: &'a str }: "at most {time} at a stretch" | "höchstens {time} am Stück",
        ContinuousDuty: "rated for continuous duty" | "für Dauerbetrieb",
        CoilDecays { time: &'a str }:
            "the coil lets go {time} after the contact opens; add the time the armature needs to move"
            | "die Spule fällt {time} nach dem Öffnen des Kontakts ab; die Zeit des Ankers kommt hinzu",
        DelayedEgress { delay: &'a str }: "delayed egress of {delay}" | "verzögerter Ausgang, {delay}",
        // Inside the door.
        ExitButton: "exit button" | "Türöffnertaster",
        NoExitButton: "no exit button" | "kein Türöffnertaster",
        ExitButtonNotStated:
            "exit button not stated (counted as none)"
            | "Türöffnertaster nicht angegeben (als nicht vorhanden gerechnet)",
        MechanicalEscape: "mechanical means of escape" | "mechanische Fluchtmöglichkeit",
        NoMechanicalEscape: "no mechanical means of escape" | "keine mechanische Fluchtmöglichkeit",
        MechanicalEscapeNotStated:
            "mechanical means of escape not stated (counted as none)"
            | "mechanische Fluchtmöglichkeit nicht angegeben (als nicht vorhanden gerechnet)",
        EmergencyRelease: "emergency release" | "Nottaster",
        NoEmergencyRelease: "no emergency release" | "kein Nottaster",
        EmergencyReleaseNotStated:
            "emergency release not stated (counted as none)"
            | "Nottaster nicht angegeben (als nicht vorhanden gerechnet)",
        RelayInside: "relay on the secure side" | "Relais auf der gesicherten Seite",
        RelayOutside: "no relay on the secure side" | "Relais nicht auf der gesicherten Seite",
        RelaySideNotStated:
            "relay on the secure side not stated"
            | "ob das Relais auf der gesicherten Seite sitzt, ist nicht angegeben",
        DoorContact: "door contact" | "Türkontakt",
        NoDoorContact: "no door contact" | "kein Türkontakt",
        DoorContactNotStated:
            "door contact not stated (counted as none)"
            | "Türkontakt nicht angegeben (als nicht vorhanden gerechnet)",
        // Alarm inputs and the load.
        AlarmInput {
            number: usize, kind: &'a str, contact: &'a str, watch: &'a str, cable: Option<&'a str>,
            releases: Option<&'a str>, tells: Option<&'a str>,
        }:
            "{number}. {kind}: contact {contact}, {watch}<, {cable}><; {releases}><; {tells}>"
            | "{number}. {kind}: Kontakt {contact}, {watch}<, {cable}><; {releases}><; {tells}>",
        EndOfLineResistor: "resistor at the end of the line" | "Abschlusswiderstand am Leitungsende",
        CutPassesUnnoticed: "a cut cable is not noticed" | "eine durchtrennte Leitung bleibt unbemerkt",
        CutIsReported: "a cut cable is reported" | "eine durchtrennte Leitung wird gemeldet",
        ReleasesLocks: "releases the locks of this door" | "gibt die Schlösser dieser Tür frei",
        TellsNobody: "tells nobody" | "meldet an niemanden",
        Tells { names: &'a str, more: Option<usize> }:
            "tells {names}< and {more} more>"
            | "meldet an {names}< und {more} weitere>",
        LoopNotJudged { missing: &'a str }:
            "loop not judged; needs {missing}"
            | "Schleife nicht beurteilt; braucht {missing}",
        StandbyLoad { voltage: &'a str }:
            "Standby load on the bus, nominal, at {voltage}"
            | "Ruhelast am Bus, nominal, bei {voltage}",
        // Supplies.
        Supply { name: &'a str }: "Supply {name}" | "Netzteil {name}",
        NoBattery: "none: without mains nothing works" | "keine: Ohne Netz geht nichts",
        AmbientOf { ambient: &'a str, limit: &'a str }: "{ambient}; the supply is made for up to {limit}" | "{ambient}; das Netzteil ist für höchstens {limit} gebaut",
        AmbientNotStated { limit: &'a str }:
            "air temperature not stated; the supply is made for up to {limit}"
            | "Lufttemperatur nicht angegeben; das Netzteil ist für höchstens {limit} gebaut",
        Load { power: &'a str, state: &'a str, charging: Option<&'a str> }:
            "{power} {state}, on mains<; {charging}>"
            | "{power} {state}, am Netz<; {charging}>",
        Charging { power: &'a str }: "{power} for charging" | "{power} zum Laden",
        ChargingWithTheRest { power: &'a str }:
            "{power} for charging (what is left of the rated power)"
            | "{power} zum Laden (der Rest der Nennleistung)",
        NotAllKnown { missing: &'a str }:
            "not all known; missing: {missing}"
            | "nicht alles bekannt; es fehlt: {missing}",
        BatteryTakesOver { hours: &'a str, state: &'a str }:
            "the battery takes over at once, for at least {hours} ({state})"
            | "die Batterie übernimmt sofort, für mindestens {hours} ({state})",
        Assumed { value: &'a str }: "{value} (assumed)" | "{value} (angenommen)",
        AfterLongFailure { what: &'a str }:
            "after a longer power cut: {what}"
            | "nach einem längeren Stromausfall: {what}",
        BackInTheBattery { what: &'a str, hours: &'a str }:
            "{what}; the battery is four fifths full again {hours} after"
            | "{what}; die Batterie ist {hours} danach wieder zu vier Fünfteln voll",
        MoreWhereLoadLeavesLess { what: &'a str }:
            "{what}, or later if the load leaves less power for charging"
            | "{what}, oder später, wenn die Last weniger zum Laden übrig lässt",
        Capacity { count: Option<&'a str>, capacity: &'a str, rate: &'a str, effective: &'a str }:
            "<{count}, together >{capacity} rated over {rate}; {effective} counted, after age and cold"
            | "<{count}, zusammen >{capacity} Nennkapazität über {rate}; {effective} gerechnet, nach Alterung und Kälte",
        InParallel { batteries: usize }: "{batteries} in parallel" | "{batteries} parallel",
        NoCallCounted:
            "no calls counted; state calls_per_hour under [policy]"
            | "ohne Rufe gerechnet; calls_per_hour unter [policy] angeben",
        CallsCollapse:
            "no calls counted: the voltage of this supply collapses while as many stand as calls_per_hour under [policy] means"
            | "ohne Rufe gerechnet: Bei so vielen Rufen, wie calls_per_hour unter [policy] bedeutet, bricht die Spannung dieses Netzteils zusammen",
        CallsOf { calls: &'a str, each: &'a str }: "{calls} an hour, {each} each" | "{calls} je Stunde zu je {each}",
    }
}
