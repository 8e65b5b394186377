//! Words and sentences of the pack that have no argument, by where they stand.

use crate::row::words;

words! {
    /// A word or sentence of the pack without arguments.
    pub enum Word {
        // Shared by several.
        About: "About" | "Betrifft",
        Address: "Address" | "Adresse",
        Cable: "Cable" | "Leitung",
        CableType: "Cable type" | "Leitungstyp",
        CautionApart:
            "Keep extra-low voltage apart from mains, in cable routes and in boxes."
            | "Kleinspannung von Netzspannung getrennt führen, in Trassen und in Dosen.",
        CautionCodes: "Local codes prevail over this pack." | "Örtliche Vorschriften gehen dieser Mappe vor.",
        CautionEscape:
            "Release on escape routes and the fire interlock are decided by the responsible person."
            | "Über die Freigabe an Fluchtwegen und die Brandfallsteuerung entscheidet die verantwortliche Person.",
        CautionIsolate:
            "Isolate and prove dead before wiring."
            | "Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen.",
        CautionMains:
            "Work on mains is done by licensed people only."
            | "Arbeiten am Netz nur durch dazu berechtigte Personen.",
        CautionNoCertificate:
            "This is a calculation and a plan, not a certificate of compliance."
            | "Dies ist eine Berechnung und ein Plan, kein Konformitätsnachweis.",
        Cautions: "Cautions" | "Vorsicht",
        ClampPart: "Suppressor diode (clamp)" | "Suppressordiode (Klemme)",
        Contents: "Contents" | "Inhalt",
        ContentsTitle: "Pack" | "Mappe",
        DiodePart: "Diode, cathode to plus" | "Diode, Kathode an Plus",
        Done: "Done" | "Erl.",
        DoorContactPart: "Door contact" | "Türkontakt",
        DoorStation: "Door station" | "Türstation",
        EmergencyReleasePart: "Emergency release" | "Nottaster",
        ExitButtonPart: "Exit button" | "Türöffnertaster",
        Free: "free" | "frei",
        From: "From" | "Von",
        InputHash: "SHA-256 of the input" | "SHA-256 der Eingabe",
        Item: "Item" | "Angabe",
        Kind: "Kind" | "Art",
        Length: "Length" | "Länge",
        Limit: "Limit" | "Grenzwert",
        Line: "No." | "Nr.",
        Lock: "Lock" | "Schloss",
        ManagementStation: "Management station" | "Zentrale",
        Margin: "Margin" | "Reserve",
        Model: "Model" | "Modell",
        No: "no" | "nein",
        NotJudged: "not judged" | "nicht beurteilt",
        NotStated: "not stated" | "nicht angegeben",
        Outdoors: "outdoors" | "außen",
        Place: "Place" | "Ort",
        Remark: "Remark" | "Bemerkung",
        Revision: "Revision" | "Stand",
        Rows: "Rows" | "Zeilen",
        Run: "Run" | "Strang",
        Sheet: "Sheet" | "Blatt",
        State: "State" | "Zustand",
        Stations: "Stations" | "Stationen",
        Supply: "Supply" | "Netzteil",
        Terminal: "Terminal" | "Klemme",
        Title: "Title" | "Benennung",
        Total: "Total" | "Summe",
        Value: "Value" | "Wert",
        VaristorPart: "Varistor" | same,
        Verdict: "Verdict" | "Ergebnis",
        VerdictAssumed: "holds, on assumed values" | "eingehalten, auf Grundlage von Annahmen",
        VerdictFails: "fails" | "nicht eingehalten",
        VerdictFailsAsAccepted:
            "fails, with every error accepted"
            | "nicht eingehalten, jeder Fehler akzeptiert",
        VerdictHolds: "holds in every state that was solved" | "in jedem gerechneten Zustand eingehalten",
        VerdictNotJudged:
            "nothing failed, but not everything could be judged"
            | "nichts verletzt, aber nicht alles beurteilbar",
        Voltage: "Voltage" | "Spannung",
        What: "What" | "Was",
        Where: "Where" | "Wo",
        Yes: "yes" | "ja",
        // Doors, locks and modules.
        AcrossContact: "Across the relay's contact" | "Parallel zum Relaiskontakt",
        AcrossLock: "Across the lock" | "Parallel zum Schloss",
        AlternatingCurrent: "alternating current" | "Wechselstrom",
        BusCollapses:
            "not judged: the bus has no operating point there"
            | "nicht beurteilt: Der Bus hat dort keinen Arbeitspunkt",
        Buttons: "buttons" | "Tasten",
        CautionAssumed: "Some figures rest on assumed values." | "Einige Werte beruhen auf Annahmen.",
        CautionDiode:
            "Mind the polarity of the diode; never on alternating current."
            | "Polung der Diode beachten; nie an Wechselstrom.",
        CautionDrive:
            "The safety devices of the drive are another trade's work; a contact must not bypass them."
            | "Die Schutzeinrichtungen des Antriebs sind Sache eines anderen Gewerks; ein Kontakt darf sie nicht umgehen.",
        CautionOpens:
            "The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it."
            | "Die Spule steht bei geschlossener Tür unter Strom: Sie ist warm, und die Tür öffnet bei Stromausfall, wenn keine Batterie sie speist.",
        CautionSecureSide:
            "Mount the relay on the secure side of the door."
            | "Das Relais auf der gesicherten Seite der Tür anbringen.",
        CautionWayOut:
            "The way out must work without the bus and without the door station."
            | "Der Weg hinaus muss ohne Bus und ohne Türstation frei sein.",
        ContinuousDuty: "rated for continuous duty" | "für Dauerbetrieb",
        ControlHeight: "Height of the controls" | "Höhe der Bedienelemente",
        Current: "Current" | "Strom",
        CurrentKind: "Kind of current" | "Stromart",
        DelayedEgress: "Delayed egress" | "Verzögerter Ausgang",
        DirectCurrent: "direct current" | "Gleichstrom",
        Door: "Door" | "Tür",
        DoorsTitle: "Door sheets" | "Türdatenblätter",
        DriveInput: "input of the drive" | "Eingang des Antriebs",
        EitherCurrent: "direct or alternating current" | "Gleich- oder Wechselstrom",
        EmergencyReleaseClosed: "emergency release (normally closed)" | "Nottaster (Öffner)",
        Energised: "Energised" | "Bestromt",
        EscapeRoute: "Escape route" | "Fluchtweg",
        ExitButtonNormallyClosed: "exit button (normally closed)" | "Türöffnertaster (Öffner)",
        ExitButtonNormallyOpen: "exit button (normally open)" | "Türöffnertaster (Schließer)",
        FailSafe: "opens without power (fail-safe)" | "öffnet ohne Strom (Ruhestrom)",
        FailSecure: "stays shut without power (fail-secure)" | "bleibt ohne Strom zu (Arbeitsstrom)",
        FeedBus: "from the bus through the relay" | "aus dem Bus über das Relais",
        FeedDryContact:
            "has power of its own, takes a dry contact"
            | "eigene Versorgung, nimmt potenzialfreien Kontakt",
        FeedMinus: "feed −" | "Speisung −",
        FeedOwnSupply: "from a supply of its own through the relay" | "aus eigenem Netzteil über das Relais",
        FeedPlus: "feed +" | "Speisung +",
        FeedStation: "from the door station's lock output" | "aus dem Schlossausgang der Türstation",
        FireContactClosed: "fire alarm contact (normally closed)" | "Kontakt der BMA (Öffner)",
        FireInterlock: "Fire interlock" | "Brandfallsteuerung",
        GateDrive: "gate drive" | "Torantrieb",
        HighestVoltage: "Highest voltage" | "Größte Spannung",
        HoldTime: "Release time" | "Freigabezeit",
        Keypad: "keypad" | "Codetastatur",
        LoopResistance: "Loop resistance" | "Schleifenwiderstand",
        LowestVoltage: "Lowest voltage" | "Kleinste Spannung",
        Magnet: "holding magnet" | "Haltemagnet",
        MechanicalEscape: "Mechanical means of escape" | "Mechanische Fluchtmöglichkeit",
        Mind: "Mind" | "Beachten",
        Module: "Module" | "Modul",
        MotorLock: "motor lock" | "Motorschloss",
        NamesModule: "names" | "Namen",
        NominalVoltage: "Nominal voltage" | "Nennspannung dort",
        NormallyClosed: "common and normally closed" | "Wurzel und Öffner",
        NormallyOpen: "common and normally open" | "Wurzel und Schließer",
        NotStatedNone: "not stated (counts as no)" | "nicht angegeben (gilt als nein)",
        NotStatedDefault: "not stated; default" | "nicht angegeben; Vorgabe",
        Nothing: "nothing" | "nichts",
        PowerFrom: "Power" | "Versorgung",
        Reader: "reader" | "Leser",
        RelayContactItem: "Relay wired" | "Relais verdrahtet",
        RelayNormallyClosed: "relay common, normally closed" | "Relais Wurzel, Öffner",
        RelayNormallyOpen: "relay common, normally open" | "Relais Wurzel, Schließer",
        RelayOnSecureSide: "Relay on the secure side" | "Relais auf der gesicherten Seite",
        RuleToLookAt: "Rule to look at" | "Zu beachtende Regel",
        SetAsPlanned: "as planned" | "wie geplant",
        SetInStation:
            "set in the door station, wins over the plan"
            | "in der Türstation eingestellt, geht dem Plan vor",
        Strike: "strike" | "Türöffner",
        VoltageNotNeeded:
            "none to judge: the drive has power of its own"
            | "keine zu beurteilen: Der Antrieb hat eigene Versorgung",
        WhileReleased: "while released" | "während der Freigabe",
        WhileShut: "while shut" | "während geschlossen",
        WiringInSeries: "Wired in series" | "In Reihe verdrahtet",
        WithoutPower: "Without power" | "Ohne Strom",
        // Relays in between, lights, heater and alarm inputs.
        CoilOfRelayBetween: "Coil of the relay in between, energised" | "Spule des Relais dazwischen, bestromt",
        FeedAlternating: "feed ~" | "Speisung ~",
        PanelAdvice: "Door panel" | "Türtableau",
        RelayBetween: "relay in between, make contact" | "Relais dazwischen, Schließer",
        AlarmContact: "Alarm contact" | "Meldekontakt",
        AlarmInput: "Alarm input" | "Meldeeingang",
        ButtonLight: "light for buttons" | "Tastenbeleuchtung",
        ContactCableNotStated:
            "cable of the contact not stated in the plan"
            | "Leitung des Kontakts im Plan nicht angegeben",
        CutNotNoticed: "a cut cable passes unnoticed" | "eine durchtrennte Leitung bleibt unbemerkt",
        DoorAlarm: "door open" | "Tür offen",
        DuressAlarm: "duress, silent" | "Überfall, still",
        EndOfLineResistor: "resistor at the end of the line" | "Abschlusswiderstand am Leitungsende",
        FireAlarm: "fire alarm" | "Brandmeldeanlage (BMA)",
        Heater: "Heater" | "Heizung",
        Light: "Light" | "Leuchte",
        LightFromBus: "from the bus" | "aus dem Bus",
        LightFromOwnSupply: "from a supply of its own" | "aus eigenem Netzteil",
        LightFromStation: "from the door station" | "aus der Türstation",
        LitAlways: "always on" | "immer an",
        LitAtNight: "on at night" | "bei Nacht an",
        LitInUse: "on while the door station is in use" | "an, solange die Türstation benutzt wird",
        MeasureContactLoop:
            "Resistance of the loop, contact bridged, station disconnected."
            | "Schleifenwiderstand bei gebrücktem Kontakt, Station abgeklemmt.",
        NameLight: "light for names" | "Namensbeleuchtung",
        PorchLight: "porch light" | "Vorplatzleuchte",
        ReleasesLocks: "releases the locks of this door" | "gibt die Schlösser dieser Tür frei",
        RestsClosed: "contact closed at rest" | "Kontakt in Ruhe geschlossen",
        RestsOpen: "contact open at rest" | "Kontakt in Ruhe offen",
        StandbyLoad: "Standby load on the bus" | "Ruhelast am Bus",
        TamperAlarm: "tamper" | "Sabotage",
        // Supplies and batteries.
        AgeingRemark: "after ageing and temperature" | "nach Alterung und Temperatur",
        Ambient: "Ambient temperature" | "Umgebungstemperatur",
        Battery: "Battery" | "Batterie",
        BatteryCapacity: "Capacity of the battery" | "Kapazität der Batterie",
        BatteryHours: "Hours on battery" | "Stunden auf Batterie",
        BatteryVoltage: "Voltage of the battery" | "Spannung der Batterie",
        CapacityCountedOn: "Capacity that is counted on" | "Angesetzte Kapazität",
        ChargeCurrent: "Charging current" | "Ladestrom",
        ChargingPower: "Power for charging" | "Leistung zum Laden",
        ChargingWaits:
            "what the load leaves of the rated power"
            | "was die Last von der Nennleistung übrig lässt",
        Heat: "Heat in the cupboard" | "Wärme im Schrank",
        MainsCurrent: "Mains current" | "Netzstrom",
        NoBattery: "none: everything stops with the mains" | "keine: Mit dem Netz steht alles",
        OutputPower: "Largest output power" | "Größte Ausgangsleistung",
        RechargeHours: "Hours to recharge" | "Stunden zum Laden",
        SuppliesTitle: "Battery and supply sheet" | "Datenblatt der Netzteile und Batterien",
        // Calculation sheets.
        CalculationsNote:
            "Worst device of every supply in its worst state, every tolerance against it; then every lock; then every supply."
            | "Ungünstigstes Gerät jedes Netzteils in seinem ungünstigsten Zustand, alle Toleranzen dagegen; dann jedes Schloss; dann jedes Netzteil.",
        CalculationsTitle: "Calculation sheets" | "Berechnungsblätter",
        DropInBox: "Drop inside a box, input to port" | "Spannungsfall in einem Verteiler, Eingang bis Abgang",
        DropInSource: "Drop inside the source" | "Spannungsfall in der Quelle",
        For: "For" | "Für",
        Formula: "Formula" | "Formel",
        Holds: "Holds" | "Eingehalten",
        Inputs: "Inputs" | "Eingangswerte",
        NoOperatingPoint: "no operating point" | "kein Arbeitspunkt",
        Quantity: "Quantity" | "Größe",
        Result: "Result" | "Ergebnis",
        Source: "Source" | "Quelle",
        SourceBound:
            "Kirchhoff's voltage law; a lower bound (resistive loads are taken at their highest current)"
            | "Kirchhoffs Maschenregel; untere Schranke (Widerstandslasten mit ihrem größten Strom angesetzt)",
        SourceKirchhoff:
            "Kirchhoff's voltage law, Ohm's law; loop is both conductors"
            | "Kirchhoffs Maschenregel, Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        SourceMeasured:
            "loop measured on site, shared out by length, k its error"
            | "vor Ort gemessene Schleife, nach Länge aufgeteilt, k ihr Fehler",
        SourceVoltage: "Lowest voltage of the source" | "Kleinste Spannung der Quelle",
        SymbolsNote:
            "Symbols: r ohm per metre of one conductor when hot, L length, a and b tolerances of length and resistance, j ohm per joint, n joints, p pairs in parallel, s and e ohm of surge protection, ΣL length of the whole run, k error of a measured loop, t tolerance of the source."
            | "Formelzeichen: r Ohm je Meter einer warmen Ader, L Länge, a und b Toleranzen von Länge und Widerstand, j Ohm je Verbindung, n Verbindungen, p Paare parallel, s und e Ohm des Überspannungsschutzes, ΣL Länge des ganzen Strangs, k Fehler einer gemessenen Schleife, t Toleranz der Quelle.",
        VoltageAtTerminals: "Voltage at the terminals" | "Spannung an den Klemmen",
        // Summary and what is in hand.
        AssumedValue: "Rests on an assumed value" | "Beruht auf einer Annahme",
        BranchBoxes: "Branch boxes" | "Abzweigdosen",
        Buildings: "Buildings" | "Gebäude",
        CurrentInHand: "Current in hand" | "Stromreserve",
        Distributors: "Distributors" | "Verteiler",
        Dwellings: "Dwellings" | "Wohnungen",
        Entrances: "Entrances" | "Eingänge",
        ExistingCable: "Cable in the walls already" | "Vorhandene Leitung",
        Family: "Family of parts" | "Gerätefamilie",
        FreePorts: "Free ports" | "Freie Abgänge",
        InHandNote:
            "Stations in hand: further stations of the last one's model that the end of the run could carry, as far as voltage, current and datasheet counts tell. An estimate: the proof is to add them and check again."
            | "Stationen in Reserve: weitere Stationen des letzten Modells, die das Ende der Leitung nach Spannung, Strom und Datenblattzahlen tragen könnte. Eine Schätzung: Beweis ist, sie einzutragen und neu zu prüfen.",
        InHandTitle: "What is in hand" | "Reserven",
        LargestCurrent: "Largest current" | "Größter Strom",
        LargestPower: "Largest power" | "Größte Leistung",
        LeastMargin: "Least margin to a limit" | "Kleinste Reserve zu einem Grenzwert",
        LoadingMargin: "Loading margin" | "Lastreserve",
        LoadingMarginMeaning:
            "factor by which all loads could grow before there is no operating point"
            | "Faktor, um den alle Lasten wachsen könnten, bis es keinen Arbeitspunkt mehr gibt",
        ManagementStations: "Management stations" | "Zentralen",
        NewCable: "New cable" | "Neue Leitung",
        PowerInHand: "Power in hand" | "Leistungsreserve",
        Runs: "Runs" | "Stränge",
        SearchBounded:
            "search not complete: the figures are the worst found"
            | "Suche unvollständig: Die Werte sind die ungünstigsten gefundenen",
        SearchComplete: "search complete" | "Suche vollständig",
        StatesSolved: "Operating states that were solved" | "Gerechnete Betriebszustände",
        StationsInHand: "Stations in hand" | "Stationen in Reserve",
        SummaryTitle: "System summary" | "Anlagenübersicht",
        Supplies: "Supplies" | "Netzteile",
        WhatIsThere: "What is there" | "Bestand",
        WorstDevice: "Worst device" | "Ungünstigstes Gerät",
        // Wiring, cables and cutting.
        BesideMains: "shares its route with mains: separate it" | "läuft neben Netzleitungen: trennen",
        Buried: "in the ground" | "im Erdreich",
        CableEnd: "Cable" | "Leitung",
        CablesTitle: "Cable list" | "Leitungsliste",
        Colour: "Colour" | "Farbe",
        ColourConvention:
            "Colours by IEC 60757, by convention: two-core flexible BN/BU (HD 308 S2), four pairs AWG as ANSI/TIA-568, else WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). If the cable has others, write down what was used."
            | "Farben nach IEC 60757, nach Übereinkunft: zweiadrig flexibel BN/BU (HD 308 S2), vier Paare AWG wie ANSI/TIA-568, sonst WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). Hat die Leitung andere, das Verwendete notieren.",
        ConductorSize: "Conductor" | "Ader",
        CutBoundMeaning:
            "Proved least: the drums bought equal a lower bound (their total holds every piece; or the dual of the Gilmore-Gomory program, its prices checked by an integer knapsack), so no cutting plan buys less."
            | "Bewiesen kleinstmöglich: Die gekauften Trommeln erreichen eine untere Schranke (ihre Summe fasst alle Stücke; oder das Dual des Programms von Gilmore und Gomory, dessen Preise ein ganzzahliger Rucksack prüft), also kauft kein Schnittplan weniger.",
        CutLength: "Cut to" | "Ablängen auf",
        CutListTitle: "Cut list" | "Zuschnittliste",
        Device: "Device" | "Gerät",
        Drum: "Drum" | "Trommel",
        DrumLength: "Length of drum" | "Trommellänge",
        EndOfChain: "end of the chain, stays empty" | "Ende der Kette, bleibt frei",
        ExistingColours:
            "existing cable: write down the colour found"
            | "vorhandene Leitung: vorgefundene Farbe notieren",
        GoesTo: "Other end" | "Anderes Ende",
        HasJoints: "has joints on the way" | "hat Verbindungen unterwegs",
        InTheWalls: "in the walls already" | "liegt bereits",
        Indoors: "indoors" | "innen",
        LabelConvention:
            "Both ends carry the designation of the cable, then this end, then the other one: device, colon, terminal (in the manner of IEC 81346 and IEC 61666)."
            | "Beide Enden tragen die Bezeichnung der Leitung, dann dieses Ende, dann das andere: Gerät, Doppelpunkt, Klemme (in der Art von IEC 81346 und IEC 61666).",
        LabelFrom: "Label at this end" | "Schild am Anfang",
        LabelTo: "Label at the far end" | "Schild am Ende",
        LeftOnDrum: "Left on drum" | "Rest auf Trommel",
        Leg: "Leg" | "Pol",
        LegsConvention:
            "Legs are kept apart as + and − throughout, also where a device works either way round."
            | "Die Pole werden durchgehend als + und − getrennt, auch wo ein Gerät beliebig gepolt arbeitet.",
        LockCableNotStated:
            "cable of the lock is not stated in the plan"
            | "Leitung des Schlosses steht nicht im Plan",
        NeverCutInTwo:
            "No length between two terminals is cut in two: no joints are added."
            | "Keine Länge zwischen zwei Klemmen wird geteilt: Es kommen keine Verbindungen hinzu.",
        NothingLeadsHere: "nothing leads here" | "nichts führt hierher",
        Pair: "Pair" | "Paar",
        PairsSpare: "Pairs spare" | "Paare frei",
        PairsUsed: "Pairs used" | "Paare belegt",
        RunsWhere: "Runs" | "Verlegt",
        ScreenConvention:
            "Screened cable: join the screen at the end nearer to the supply, insulate it at the other (common practice)."
            | "Geschirmte Leitung: Schirm am netzteilseitigen Ende anschließen, am anderen isolieren (üblich).",
        Screened: "screened" | "geschirmt",
        SeveralCables:
            "several cables side by side: pull and label each"
            | "mehrere Leitungen nebeneinander: jede ziehen und beschriften",
        SurgeProtectorHere: "surge protector in the line here" | "Überspannungsschutz hier in der Leitung",
        SurgeProtectorInRun: "surge protector in this run" | "Überspannungsschutz in diesem Strang",
        TerminatorHere: "terminator set here" | "Abschluss hier gesetzt",
        To: "To" | "Nach",
        WiringTitle: "Wiring schedule, terminal by terminal" | "Klemmenplan",
        // Devices, settings and parts.
        Accessory: "Accessory" | "Zubehör",
        AddressMissing: "no address: see the snag list" | "keine Adresse: siehe Mängelliste",
        AudioDoorStation: "Door station, audio" | "Türstation, Audio",
        AudioExtension: "Indoor station, audio, extension" | "Innenstation, Audio, Nebenstelle",
        AudioStation: "Indoor station, audio" | "Innenstation, Audio",
        BoxKind: "Distributor or branch box" | "Verteiler oder Abzweigdose",
        BranchBox: "Branch box" | "Abzweigdose",
        Designation: "Designation" | "Bezeichnung",
        DevicesTitle: "Device schedule, in walking order" | "Geräteliste in Gehreihenfolge",
        Distributor: "Distributor" | "Verteiler",
        FieldBuilding: "building" | "Gebäude",
        FieldDwelling: "dwelling" | "Wohnung",
        FieldEntrance: "entrance" | "Eingang",
        FieldExtension: "extension" | "Nebenstelle",
        FieldManagement: "management" | "Zentrale",
        IndoorStation: "Indoor station" | "Innenstation",
        JumperFitted: "fitted" | "gesteckt",
        JumperOpen: "open" | "offen",
        KindSmall: "Small part" | "Kleinteil",
        LatchedAtPowerUp:
            "Settings are read at power-up only: switch the bus off and on after a change."
            | "Einstellungen werden nur beim Einschalten gelesen: nach einer Änderung den Bus aus- und einschalten.",
        LinePrice: "Price" | "Preis",
        LockSupplyPart: "Supply of a lock's own" | "Eigenes Netzteil eines Schlosses",
        Needed: "Needed" | "Bedarf",
        NoAddress: "has no address" | "hat keine Adresse",
        NoPlace: "Without a place in the plan" | "Ohne Ort im Plan",
        NotInCatalogue: "not in the catalogue: to be chosen" | "nicht im Katalog: auszuwählen",
        Number: "No." | "Nr.",
        OrderedInDrums:
            "ordered as the cut list says; the rest is left over"
            | "bestellt nach Zuschnittliste; der Rest bleibt übrig",
        PartsTitle: "Parts list" | "Stückliste",
        Reference: "Reference designation" | "Referenzkennzeichen",
        Settings: "Switch positions" | "Schalterstellungen",
        Spares: "Spares" | "Reserve",
        TerminatorPart: "Terminator of the family" | "Abschluss der Gerätefamilie",
        ToOrder: "To order" | "Zu bestellen",
        UnitPrice: "Unit price" | "Einzelpreis",
        VideoDoorStation: "Door station, video" | "Türstation, Video",
        VideoExtension: "Indoor station, video, extension" | "Innenstation, Video, Nebenstelle",
        VideoStation: "Indoor station, video" | "Innenstation, Video",
        // Calls and names.
        Called: "Called" | "Gerufen",
        CalledFrom: "Can be called from" | "Kann gerufen werden von",
        CallsTitle: "Who calls whom" | "Wer ruft wen",
        Dwelling: "Dwelling" | "Wohnung",
        NameOnPanel: "Name on the panel" | "Name auf dem Tableau",
        NamesPrivacy:
            "Ask the owner which names may be shown; numbers do as well."
            | "Beim Eigentümer erfragen, welche Namen gezeigt werden dürfen; Nummern genügen auch.",
        NamesTitle: "Name lists of panels and directories" | "Namenslisten der Tableaus und Verzeichnisse",
        NewName: "Name wanted" | "Gewünschter Name",
        Nobody: "nobody" | "niemand",
        OpensLocks: "Opens (after a call)" | "Öffnet (nach einem Ruf)",
        OpensMeaning:
            "A station opens the locks of the entrance that called it."
            | "Eine Station öffnet die Schlösser des Eingangs, der sie gerufen hat.",
        Panel: "Panel" | "Tableau",
        // Commissioning.
        AllRunsOff:
            "Take every run off the outputs, switch the mains on."
            | "Alle Leitungen von den Ausgängen abklemmen, Netz einschalten.",
        BatteryTakesOver:
            "Switch the mains off: the system stays on. Switch it on again."
            | "Netz ausschalten: Die Anlage läuft weiter. Wieder einschalten.",
        BeforePowerNote:
            "Nothing is under power on this sheet. Work from top to bottom."
            | "Auf diesem Blatt steht nichts unter Spannung. Von oben nach unten arbeiten.",
        BeforePowerTitle: "Commissioning before power" | "Inbetriebnahme vor dem Einschalten",
        ChangeCredentials:
            "Change every factory code and password. Do not write the new ones on this sheet."
            | "Alle werkseitigen Codes und Passwörter ändern. Die neuen nicht auf dieses Blatt schreiben.",
        CompareDeviceList:
            "Have the system list its devices; hold the list against the device schedule: none missing, none unexpected, none twice."
            | "Die Anlage ihre Geräte auflisten lassen; die Liste mit der Geräteliste vergleichen: keines fehlt, keines ist fremd, keines doppelt.",
        CornersMeaning:
            "Lowest and highest: the nominal calculation repeated with every tolerance (supply, cable, length, temperature, loads) against the voltage, then with every tolerance for it."
            | "Kleinster und größter Wert: die Nennrechnung wiederholt mit allen Toleranzen (Netzteil, Leitung, Länge, Temperatur, Lasten) gegen die Spannung, dann mit allen dafür.",
        DisconnectBattery: "Disconnect the battery." | "Batterie abklemmen.",
        EscapeWithoutSystem:
            "With the system off, the door opens from inside with one action, without a key."
            | "Bei ausgeschalteter Anlage öffnet die Tür von innen mit einem Griff, ohne Schlüssel.",
        ExpectedValue: "Expected" | "Erwartet",
        FireInterlockTest:
            "With the responsible person: the fire alarm's contact releases the door."
            | "Mit der verantwortlichen Person: Der Kontakt der Brandmeldeanlage (BMA) gibt die Tür frei.",
        HandOver:
            "Fill in the handover record together with the owner."
            | "Die Übergabe mit dem Eigentümer gemeinsam ausfüllen.",
        Highest: "Highest" | "Höchstens",
        IsolateMains:
            "Isolate from the mains and secure against switching on."
            | "Vom Netz freischalten und gegen Wiedereinschalten sichern.",
        LeaveTidy:
            "Close the boxes, tidy the cables, take the rubbish along."
            | "Dosen schließen, Leitungen ordnen, Abfall mitnehmen.",
        LedNote:
            "Currents are those of standby by day, all devices beyond the run booted and nobody calling; wait until the reading stands still."
            | "Ströme gelten für Ruhe bei Tag, alle Geräte dahinter hochgefahren, kein Ruf; warten, bis die Anzeige steht.",
        LimitThere: "Limit there" | "Grenzwert dort",
        LiveNote:
            "Work from top to bottom. A reading outside its range is looked into before the next step."
            | "Von oben nach unten arbeiten. Ein Messwert außerhalb seines Bereichs wird vor dem nächsten Schritt geklärt.",
        LiveTitle: "Commissioning with power" | "Inbetriebnahme unter Spannung",
        LockVoltage:
            "Voltage at the lock while it is energised"
            | "Spannung am Schloss, während es bestromt ist",
        LockWithoutPower:
            "Without power the lock does what the door sheet says."
            | "Ohne Strom verhält sich das Schloss, wie das Türdatenblatt sagt.",
        Lowest: "Lowest" | "Mindestens",
        MeasureLockLoop:
            "Loop resistance of the cable, short-circuited at the lock"
            | "Schleifenwiderstand der Leitung, am Schloss kurzgeschlossen",
        MountAndWire:
            "Mount; wire by the wiring schedule; pull at every conductor."
            | "Montieren; nach Klemmenplan verdrahten; an jeder Ader ziehen.",
        NoShortAtOutput:
            "No short circuit between + and − of the runs, and none to earth."
            | "Kein Kurzschluss zwischen + und − der Leitungen und keiner gegen Erde.",
        NobodyCalls:
            "No entrance calls this station: see the snag list."
            | "Kein Eingang ruft diese Station: siehe Mängelliste.",
        NoteVersions:
            "Write the versions of all devices into the handover record."
            | "Versionen aller Geräte im Übergabeprotokoll festhalten.",
        OhmmeterNote:
            "Ohmmeters do not see through the bridge of a station: disconnect the electronics, join the loop-through terminals, and short the far end for a loop reading. Ranges: coldest to hottest conductor, all tolerances; take off the resistance of the test leads."
            | "Ohmmeter sehen nicht durch den Gleichrichter einer Station: Elektronik abklemmen, Durchschleifklemmen verbinden und für die Schleifenmessung das ferne Ende kurzschließen. Bereiche: kälteste bis wärmste Ader, alle Toleranzen; Widerstand der Messleitungen abziehen.",
        OpenCircuitVoltage:
            "Voltage at the output, nothing connected"
            | "Spannung am Ausgang, nichts angeschlossen",
        ProveDead: "Prove dead at the terminals." | "Spannungsfreiheit an den Klemmen feststellen.",
        Reading: "Reading" | "Messwert",
        ReleaseAndVolume:
            "The release opens the door; volume and ringing tone set as the resident likes."
            | "Die Freigabe öffnet die Tür; Lautstärke und Rufton nach Wunsch des Bewohners.",
        RunWithoutSupply:
            "No supply reaches this run: see the snag list."
            | "Kein Netzteil erreicht diesen Strang: siehe Mängelliste.",
        SetClock: "Set date and time." | "Datum und Uhrzeit stellen.",
        StageBatteries: "K. Batteries" | "K. Batterien",
        StageCheck: "D. Check before power" | "D. Prüfen vor dem Einschalten",
        StageDeviceList: "H. Device list" | "H. Geräteliste",
        StageDoors: "J. Doors and locks" | "J. Türen und Schlösser",
        StageFinish: "L. Finish" | "L. Abschluss",
        StageFirstStart: "G. First start" | "G. Erster Start",
        StageIsolate: "A. Isolate and prove dead" | "A. Freischalten und Spannungsfreiheit feststellen",
        StagePowerUp: "E. Power up, run by run" | "E. Einschalten, Strang für Strang",
        StageReadings: "F. Readings with everything connected" | "F. Messwerte, alles angeschlossen",
        StageSet: "C. Set" | "C. Einstellen",
        StageStations:
            "I. Every station: voltage, call, picture, speech, release, volume"
            | "I. Jede Station: Spannung, Ruf, Bild, Sprache, Freigabe, Lautstärke",
        StageWire: "B. Wire" | "B. Verdrahten",
        StandbyHighest: "Standby highest" | "Ruhe höchstens",
        StandbyLowest: "Standby lowest" | "Ruhe mindestens",
        StandbyMeaning:
            "Standby: by day, everything connected and booted, nobody calling."
            | "Ruhe: bei Tag, alles angeschlossen und hochgefahren, kein Ruf.",
        StandbyNominal: "Standby nominal" | "Ruhe nominal",
        StandbyVoltageHere: "Voltage at the terminals in standby" | "Spannung an den Klemmen in Ruhe",
        Step: "Step" | "Schritt",
        TryExitButton: "The exit button opens." | "Der Türöffnertaster öffnet.",
        VoltagesTitle: "Expected voltages" | "Erwartete Spannungen",
        WaitForBoot: "Wait until every device has booted." | "Warten, bis alle Geräte hochgefahren sind.",
        WhatToDo: "What to do" | "Was zu tun ist",
        WholeCurrent: "Current of the whole supply in standby" | "Strom des ganzen Netzteils in Ruhe",
        WorstLowest: "Lowest there" | "Mindestens dort",
        WorstNominal: "Nominal there" | "Nominal dort",
        WorstState: "Worst state" | "Ungünstigster Zustand",
        // Snags and handover.
        Accepted: "accepted" | "akzeptiert",
        Advice: "advice" | "Hinweis",
        By: "By" | "Durch",
        DateDone: "Date mended" | "Behoben am",
        DateWord: "Date" | "Datum",
        Error: "error" | "Fehler",
        GivenAsBuilt: "As-built drawings and readings" | "Bestandspläne und Messwerte",
        GivenCredentials:
            "Credentials, sealed, to the owner in person"
            | "Zugangsdaten, verschlossen, dem Eigentümer persönlich",
        GivenInstruction:
            "Instruction of the owner and the residents"
            | "Einweisung von Eigentümer und Bewohnern",
        GivenKeys: "Keys and tags, counted" | "Schlüssel und Transponder, gezählt",
        GivenManuals: "Manuals of all devices" | "Anleitungen aller Geräte",
        GivenPack: "This pack" | "Diese Mappe",
        GivenPrivacy: "Notice on cameras and data protection" | "Hinweis zu Kameras und Datenschutz",
        GivenSpares: "Spare parts" | "Ersatzteile",
        HandoverDoors:
            "Release and escape agreed with the responsible person"
            | "Freigabe und Fluchtweg mit der verantwortlichen Person abgestimmt",
        HandoverGiven: "Handed over" | "Übergeben",
        HandoverNote:
            "This record says what was tested and handed over. It is not a certificate of compliance."
            | "Dieses Protokoll hält fest, was geprüft und übergeben wurde. Es ist kein Konformitätsnachweis.",
        HandoverSigned: "Signed" | "Unterschrieben",
        HandoverSystem: "The system" | "Die Anlage",
        HandoverTested: "Tested" | "Geprüft",
        HandoverTitle: "Handover record" | "Übergabeprotokoll",
        InstallerName: "Installer" | "Errichter",
        OwnerName: "Owner or manager" | "Eigentümer oder Verwalter",
        SignedInstaller: "Signature of the installer" | "Unterschrift des Errichters",
        SignedOwner: "Signature of the owner or manager" | "Unterschrift von Eigentümer oder Verwalter",
        Site: "Site" | "Anlage",
        Snag: "What is wrong" | "Mangel",
        SnagsAccepted: "Accepted in the plan" | "Im Plan akzeptiert",
        SnagsClosed: "Snag list closed" | "Mängelliste abgearbeitet",
        SnagsFound: "Found by the check" | "Von der Prüfung gefunden",
        SnagsNote:
            "Findings of the check that stand, what it could not judge, and room for what is found on site."
            | "Offene Befunde der Prüfung, was sie nicht beurteilen konnte, und Platz für Befunde vor Ort.",
        SnagsOnSite: "Found on site" | "Vor Ort gefunden",
        SnagsTitle: "Snag list" | "Mängelliste",
        TestedBattery: "Battery takes over" | "Batterie übernimmt",
        TestedDoors: "Every lock releases, and shuts again" | "Jedes Schloss gibt frei und schließt wieder",
        TestedEscape: "Escape with the system off" | "Flucht bei ausgeschalteter Anlage",
        TestedFire:
            "Fire interlock, with the responsible person"
            | "Brandfallsteuerung, mit der verantwortlichen Person",
        TestedReadings: "All readings within their ranges" | "Alle Messwerte in ihren Bereichen",
        TestedStations:
            "Call, picture, speech and release at every station"
            | "Ruf, Bild, Sprache und Freigabe an jeder Station",
        Warning: "warning" | "Warnung",
    }
}
