//! What a survey to fill in explains. Names of sheets, headings and choices are keys of its file and stay as they are.

use crate::row::{sentences, words};

words! {
    /// What goes on a sheet, into a column or a setting of a survey.
    pub enum SurveyHelp {
        SiteTitle: "Title of the site." | "Titel der Anlage.",
        Country: "Two letters, such as GB." | "Zwei Buchstaben, etwa GB.",
        Family:
            "Family of parts, if it is settled; else the first of the catalogue that does."
            | "Familie der Teile, wenn sie feststeht; sonst die erste des Katalogs, mit der es geht.",
        Catalogues:
            "Further catalogue files, with semicolons between."
            | "Weitere Katalogdateien, mit Semikolon getrennt.",
        Media:
            "Picture and speech, or speech only. Without it video."
            | "Bild und Sprache (video) oder nur Sprache (audio). Ohne Angabe video.",
        IndoorStation:
            "Model for all dwellings; without it the cheapest of the family."
            | "Modell für alle Wohnungen; ohne Angabe das billigste der Familie.",
        DoorStation:
            "Model for all entrances; without it the cheapest that does."
            | "Modell für alle Zugänge; ohne Angabe das billigste, mit dem es geht.",
        Labour:
            "Price of an hour of labour, in the catalogue's currency. Without it 45."
            | "Preis einer Arbeitsstunde in der Währung des Katalogs. Ohne Angabe 45.",
        Slack:
            "Extra length for bends, in per cent of the route. Without it 5."
            | "Mehrlänge für Bögen, in Prozent des Wegs. Ohne Angabe 5.",
        Termination:
            "Extra length at each end of a section, in metres. Without it 0.3."
            | "Mehrlänge an jedem Ende eines Abschnitts, in Metern. Ohne Angabe 0.3.",
        Hottest: "Of the cables, in °C. Without it 40." | "Der Leitungen, in °C. Ohne Angabe 40.",
        Coldest: "Of the cables, in °C. Without it 0." | "Der Leitungen, in °C. Ohne Angabe 0.",
        Usual: "Of the cables, in °C. Without it 20." | "Der Leitungen, in °C. Ohne Angabe 20.",
        LengthTolerance:
            "How far true lengths may differ, in per cent. Without it 5."
            | "Wie weit wahre Längen abweichen können, in Prozent. Ohne Angabe 5.",
        Wiring:
            "Chains may loop through dwellings; corridors branch off at boxes, so that no cable does; stars give each dwelling a port of its own. Without it chains."
            | "chains: Ketten dürfen durch Wohnungen schleifen. corridors: Abzweige in Dosen, sodass keine Leitung das tut. stars: jede Wohnung hat einen eigenen Abgang. Ohne Angabe chains.",
        LargestGroup:
            "Most dwellings that one broken joint may silence."
            | "Höchstzahl der Wohnungen, die eine gebrochene Klemmstelle stilllegen darf.",
        SparePorts:
            "Ports to keep free on every distributor that serves dwellings."
            | "Abgänge, die an jedem Verteiler für Wohnungen frei bleiben.",
        Growth:
            "Stations that every run of dwellings must still be able to take, by count. Without it 0."
            | "Stationen, die jeder Strang mit Wohnungen noch aufnehmen können muss, als Anzahl. Ohne Angabe 0.",
        StandbyHours:
            "Hours that batteries must carry the site; every supply then has one."
            | "Stunden, die Batterien die Anlage tragen müssen; jedes Netzteil hat dann eine.",
        ThinMargin:
            "Volts below which a station that passes is called thin. Without it 1."
            | "Volt, unter denen eine Station, die reicht, als knapp gilt. Ohne Angabe 1.",
        LeastMargin:
            "Volts that every station and box of the design keeps above what it needs."
            | "Volt, die jede Station und jede Dose des Entwurfs über dem behält, was sie braucht.",
        NoWarnings:
            "yes: a design that check warns of does not count. Without it no."
            | "yes: Ein Entwurf, vor dem check warnt, zählt nicht. Ohne Angabe no.",
        OneCableType:
            "yes: all new cable of the bus is of one type. Without it no."
            | "yes: Alle neuen Busleitungen sind von einer Art. Ohne Angabe no.",
        BoxesInDwellings:
            "no: none at a place that the sheet Places says is in a dwelling. Without it yes."
            | "no: keine an einem Ort, der laut Blatt Places in einer Wohnung liegt. Ohne Angabe yes.",
        SurgeOfRuns:
            "Loop resistance in ohm of the surge protector of every run outdoors, if fitted."
            | "Schleifenwiderstand des Überspannungsschutzes jedes Strangs im Freien in Ohm, wenn einer sitzt.",
        Cables:
            "Cables that may be pulled, with semicolons between; without it all of copper that have a price."
            | "Leitungen, die gezogen werden dürfen, mit Semikolon getrennt; ohne Angabe alle aus Kupfer, die einen Preis haben.",
        Withdrawn:
            "Parts that are no longer to be had or used, with semicolons between; design --from replaces them."
            | "Teile, die es nicht mehr gibt oder die nicht mehr verwendet werden, mit Semikolon getrennt; design --from ersetzt sie.",
        SheetSite: "One setting a row." | "Eine Einstellung je Zeile.",
        SettingName: "Name of the setting." | "Name der Einstellung.",
        SettingValue: "Its value." | "Ihr Wert.",
        SheetBuildings: "One building a row." | "Ein Gebäude je Zeile.",
        BuildingName: "Short name, first part of places." | "Kurzname, erster Teil der Orte.",
        BuildingTitle: "Title for documents." | "Titel für Unterlagen.",
        BuildingFloors:
            "From the lowest to the highest, with semicolons between: G; 1; 2."
            | "Vom untersten zum obersten, mit Semikolon getrennt: G; 1; 2.",
        BuildingCores:
            "Stairs or risers, if there is more than one, with semicolons between."
            | "Treppenhäuser oder Steigschächte, wenn es mehrere gibt, mit Semikolon getrennt.",
        FloorHeight: "Floor to floor in metres." | "Von Geschoss zu Geschoss in Metern.",
        SheetPlaces:
            "Cupboards, landings, doors: the places between which cables run."
            | "Schränke, Treppenabsätze, Türen: die Orte, zwischen denen Leitungen laufen.",
        PlaceName: "Name of the place." | "Name des Orts.",
        PlaceBuilding: "Building in which it is." | "Gebäude, in dem er liegt.",
        PlaceCore: "Core of that building." | "Treppenhaus dieses Gebäudes.",
        PlaceFloor: "Floor of that building." | "Geschoss dieses Gebäudes.",
        PlaceMains: "yes where a supply may stand." | "yes, wo ein Netzteil stehen darf.",
        PlaceBoxes: "yes where a distributor may hang." | "yes, wo ein Verteiler hängen darf.",
        PlaceOutdoors: "yes if it is outdoors." | "yes, wenn er im Freien liegt.",
        PlaceInDwelling:
            "yes if it is inside a dwelling; whether boxes may hang there is a setting of the sheet Site."
            | "yes, wenn er in einer Wohnung liegt; ob dort Dosen hängen dürfen, steht auf dem Blatt Site.",
        SheetRoutes:
            "Ways between places that a cable can take, with their lengths."
            | "Wege zwischen Orten, die eine Leitung nehmen kann, mit ihren Längen.",
        RouteFrom: "A place." | "Ein Ort.",
        RouteTo: "Another place." | "Ein anderer Ort.",
        RouteLength: "Along the way, in metres." | "Entlang des Wegs, in Metern.",
        RouteEnvironment: "Where it runs. Without it indoors, but outdoors where an end of it is a place outdoors."
            | "Wo er verläuft. Ohne Angabe indoors, aber outdoors, wo ein Ende ein Ort im Freien ist.",
        RouteMains:
            "yes if mains cables share it without separation."
            | "yes, wenn Netzleitungen ohne Trennung auf demselben Weg liegen.",
        SheetExisting:
            "Cables that are already in the walls, with what was measured of them."
            | "Leitungen, die schon in der Wand liegen, mit dem, was daran gemessen wurde.",
        ExistingFrom:
            "A place, dwelling or entrance; B-45:2 for a further station of B-45."
            | "Ein Ort, eine Wohnung oder ein Zugang; B-45:2 für eine weitere Station von B-45.",
        ExistingTo: "The other end." | "Das andere Ende.",
        ExistingCable: "Cable of the catalogue that it is like." | "Leitung des Katalogs, der sie gleicht.",
        ExistingLength:
            "In metres; where nobody knows it, it follows from the measured loop."
            | "In Metern; wo niemand sie kennt, folgt sie aus der gemessenen Schleife.",
        ExistingLoop:
            "Loop resistance with the far end joined, in ohm; must be there without a length."
            | "Schleifenwiderstand mit verbundenem fernem Ende, in Ohm; ohne Länge muss er da sein.",
        ExistingCapacitance: "With the far end open, in nF." | "Mit offenem fernem Ende, in nF.",
        ExistingInsulation:
            "The lower of between conductors and to earth, in Mohm."
            | "Der kleinere Wert von Ader gegen Ader und gegen Erde, in Mohm.",
        SheetDwellings:
            "One dwelling a row, in the order of the corridor."
            | "Eine Wohnung je Zeile, in der Reihenfolge des Flurs.",
        DwellingName: "Its name or number." | "Ihr Name oder ihre Nummer.",
        BranchesOffAt:
            "The place from which its cable branches off."
            | "Der Ort, von dem die Leitung abgeht.",
        DwellingDrop:
            "Cable from that place to its station, in metres."
            | "Leitung von diesem Ort zu ihrer Station, in Metern.",
        OwnModel: "Model, if another than everywhere." | "Modell, wenn ein anderes als überall.",
        Extensions:
            "Number of further stations, or their models with semicolons between."
            | "Anzahl weiterer Stationen, oder ihre Modelle mit Semikolon getrennt.",
        ExtensionSpacing:
            "Cable from one of its stations to the next, in metres. Without it 5."
            | "Leitung von einer ihrer Stationen zur nächsten, in Metern. Ohne Angabe 5.",
        PanelLabel: "Name on the panel, if another." | "Name am Klingeltableau, wenn ein anderer.",
        SheetEntrances: "One way in a row." | "Ein Zugang je Zeile.",
        OwnName: "Its name." | "Der Name.",
        EntranceDrop:
            "Cable from that place to its door station, in metres."
            | "Leitung von diesem Ort zu seiner Türstation, in Metern.",
        EntranceRole:
            "Without it secondary, or main where it is the only one."
            | "Ohne Angabe secondary, oder main, wo er der einzige ist.",
        EntranceOutdoors:
            "yes if the door station is outdoors."
            | "yes, wenn die Türstation im Freien hängt.",
        DropEnvironment:
            "Where its drop runs. Without it as the place: indoors, or outdoors."
            | "Wo die Stichleitung verläuft. Ohne Angabe wie der Ort: indoors oder outdoors.",
        EntranceCalls:
            "Whom it calls, with semicolons between: everyone, a building or a part of one (A, A/1), a dwelling, a range (A-1..A-12), a desk. Without it everyone."
            | "Wen er ruft, mit Semikolon getrennt: everyone, ein Gebäude oder einen Teil davon (A, A/1), eine Wohnung, einen Bereich (A-1..A-12), eine Zentrale. Ohne Angabe everyone.",
        CertainModel: "Model, if a certain one." | "Modell, wenn ein bestimmtes.",
        EntranceMedia: "If not as everywhere." | "Wenn anders als überall.",
        LockModel: "Lock of the catalogue." | "Schloss des Katalogs.",
        LockFeed: "From where the lock is fed." | "Woraus das Schloss gespeist wird.",
        LockContact: "How the relay is wired." | "Wie das Relais beschaltet ist.",
        LockCable: "Cable to the lock." | "Leitung zum Schloss.",
        LockLength: "Its length in metres." | "Ihre Länge in Metern.",
        HoldTime: "Seconds." | "Sekunden.",
        Suppression: "What kills the coil's spike." | "Was die Spannungsspitze der Spule löscht.",
        ExitButton: "Whether one is fitted." | "Ob einer sitzt.",
        MechanicalEscape:
            "Whether a handle opens it from inside without power."
            | "Ob ein Griff von innen ohne Strom öffnet.",
        EscapeRoute:
            "Whether people escape through it; a door with a lock is not judged as a way out until it is stated."
            | "Ob hier ein Fluchtweg hindurchführt; eine Tür mit Schloss wird als Fluchtweg erst beurteilt, wenn es angegeben ist.",
        EscapeDecidedBy:
            "Who decided that, by role or name; without it and the date the door is not judged."
            | "Wer das entschieden hat, mit Funktion oder Namen; ohne dies und das Datum wird die Tür nicht beurteilt.",
        EscapeDecidedOn:
            "When that was decided, such as 2026-03-02."
            | "Wann das entschieden wurde, etwa 2026-03-02.",
        FireInterlock: "Whether a fire interlock acts on it." | "Ob eine Brandfallsteuerung darauf wirkt.",
        Heater: "Whether the door station's heater is fitted." | "Ob die Heizung der Türstation sitzt.",
        ControlHeight:
            "Of the controls above the ground, in metres."
            | "Der Bedienteile über dem Boden, in Metern.",
        SurgeOfDoor:
            "Loop resistance of a surge protector in its line, in ohm."
            | "Schleifenwiderstand eines Überspannungsschutzes in seiner Leitung, in Ohm.",
        SheetDesks: "Management stations." | "Zentralen.",
        DeskDrop: "Cable from that place, in metres." | "Leitung von diesem Ort, in Metern.",
        DeskCalls:
            "Whom it calls, with semicolons between, as for an entrance. Without it everyone."
            | "Wen sie ruft, mit Semikolon getrennt, wie bei einem Zugang. Ohne Angabe everyone.",
        SheetLocked:
            "What is decided already and must stay so, a decision a row."
            | "Was schon entschieden ist und so bleiben muss, eine Entscheidung je Zeile.",
        Decision:
            "supply: supplies stand at the places of such rows and nowhere else. box: a distributor stands at this place and serves at least its nearest dwelling. route: cables take this route wherever it leads on. cable: these are fed by this cable, or without a part by the old cable that leads to them. together: these dwellings are on one run. not through: no cable loops through these dwellings."
            | "supply: Netzteile stehen an den Orten solcher Zeilen und sonst nirgends. box: An diesem Ort hängt ein Verteiler und bedient mindestens die nächste Wohnung. route: Leitungen nehmen diesen Weg, wo immer er weiterführt. cable: Diese werden mit dieser Leitung gespeist, ohne Teil mit der alten Leitung, die zu ihnen führt. together: Diese Wohnungen hängen an einem Strang. not through: Keine Leitung schleift durch diese Wohnungen.",
        DecisionWhat:
            "The place; of a route its one end; else the dwellings, with semicolons between: names, ranges (A-1..A-4), a building or a part of one; for a cable also doors and desks."
            | "Der Ort; von einem Weg ein Ende; sonst die Wohnungen, mit Semikolon getrennt: Namen, Bereiche (A-1..A-4), ein Gebäude oder ein Teil davon; bei einer Leitung auch Türen und Zentralen.",
        DecisionTo: "The other end of a route." | "Das andere Ende eines Wegs.",
        DecisionPart: "The model of the box, or the cable." | "Das Modell der Dose oder die Leitung.",
        SheetPrices:
            "Your own prices and minutes in place of the catalogue's."
            | "Eigene Preise und Minuten anstelle derer des Katalogs.",
        PricedPart: "Name in the catalogue." | "Name im Katalog.",
        Price: "Of a piece, or of a metre of cable." | "Eines Stücks, oder eines Meters Leitung.",
        Minutes:
            "Of labour for a piece, or for a metre of cable."
            | "Arbeit für ein Stück, oder für einen Meter Leitung.",
    }
}

words! {
    /// The page of instructions of a survey to fill in, around what is said of each column.
    pub enum SurveyWord {
        FillIn:
            "Fill in what you find on site, a row for each thing; leave out what does not apply. Nothing here is fixed: columns may change places."
            | "Eintragen, was vor Ort zu finden ist, eine Zeile je Ding; was nicht zutrifft, bleibt leer. Nichts ist hier fest: Spalten dürfen die Plätze tauschen. Blätter, Überschriften und Wörter zur Auswahl bleiben englisch, daran werden sie erkannt.",
        Places:
            "Places are the cupboards, landings and doors between which cables run; routes join them with lengths in metres."
            | "Orte (Places) sind die Schränke, Treppenabsätze und Türen, zwischen denen Leitungen laufen; Wege (Routes) verbinden sie, mit Längen in Metern.",
        Drops:
            "Each dwelling hangs on a place by its drop: the cable from the corridor to its station. A chain goes in and out along the drop."
            | "Jede Wohnung hängt mit ihrer Stichleitung (Drop) an einem Ort: der Leitung vom Flur zu ihrer Station. Eine Kette läuft auf der Stichleitung hinein und wieder heraus.",
        Mains:
            "Say where mains is (a supply may stand there) and where boxes may hang. Then run: latchline design survey.xlsx -o site.toml"
            | "Angeben, wo Netzspannung ist (dort darf ein Netzteil stehen) und wo Dosen hängen dürfen. Dann: latchline design survey.xlsx -o site.toml",
        Sheet: "Sheet" | "Blatt",
        Column: "Column" | "Spalte",
        Needed: "Needed" | "Nötig",
        WhatGoesThere: "What goes there" | "Was hineingehört",
        Yes: "yes" | "ja",
    }
}

sentences! {
    /// What is said of a column or setting.
    pub enum SurveyNote<'a> {
        Choices { help: SurveyHelp, choices: Option<&'a str> }:
            "{help}< One of: {choices}.>" | "{help}< Zur Auswahl: {choices}.>",
        Setting { help: SurveyHelp, choices: Option<&'a str> }:
            "Setting. {help}< One of: {choices}.>" | "Einstellung. {help}< Zur Auswahl: {choices}.>",
    }
}
