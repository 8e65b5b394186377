//! What `design` says: the declared space, what stands in the way, what a change does, and the result.

use crate::row::{sentences, words};
use latchline_finding::{Both, Figure};

words! {
    /// A part that a family lacks; the German says "keinen Verteiler".
    pub enum LackingPart {
        Distributor: "distributor with a price" | "keinen Verteiler mit Preis",
        Supply: "supply with a price" | "kein Netzteil mit Preis",
        SupplyWithBattery: "supply with a battery and a price" | "kein Netzteil mit Batterie und Preis",
        Cable: "cable with a price" | "keine Leitung mit Preis",
        OneCable:
            "cable with a price that may run on every way of the survey"
            | "keine Leitung mit Preis, die auf jedem Weg der Aufnahme liegen darf",
        ManagementStation: "management station" | "keine Zentrale",
        VideoIndoor: "video indoor station" | "keine Video-Innenstation",
        AudioIndoor: "audio indoor station" | "keine Audio-Innenstation",
        VideoDoor:
            "video door station that can call so many"
            | "keine Video-Türstation, die so viele rufen kann",
        AudioDoor:
            "audio door station that can call so many"
            | "keine Audio-Türstation, die so viele rufen kann",
        Replacement:
            "part to take the place of a withdrawn one"
            | "kein Teil, das ein abgekündigtes ersetzt",
    }
}

words! {
    /// A part of which the survey gives an unknown name.
    pub enum UnknownPart {
        Station: "station" | "eine Station",
        Cable: "cable" | "eine Leitung",
        Family: "family" | "eine Gerätefamilie",
    }
}

words! {
    /// What a family allows only so many of.
    pub enum CountedPart {
        DoorStations: "door stations on one bus" | "Türstationen an einem Bus",
        StationsOfDwelling: "stations of one dwelling" | "Stationen einer Wohnung",
    }
}

sentences! {
    /// A limit with its value.
    pub enum LimitWords {
        Margin { volts: Figure }: "least margin: {volts}" | "kleinste Reserve: {volts}",
        SparePorts { ports: usize }: "spare ports: {ports}" | "freie Abgänge: {ports}",
        Dwellings { dwellings: usize }: "dwellings on a run: {dwellings}" | "Wohnungen an einem Strang: {dwellings}",
        Stations { stations: usize }: "stations on a run: {stations}" | "Stationen an einem Strang: {stations}",
        Length { metres: usize }: "length of a run: {metres} m" | "Länge eines Strangs: {metres} m",
    }
}

sentences! {
    /// Why there is no design, or no change.
    pub enum ObstacleWords<'a> {
        NoPart { family: &'a str, part: &'a LackingPart }:
            "the family {family} has no {part}"
            | "die Gerätefamilie {family} hat {part}",
        UnknownPart { part: &'a UnknownPart, name: &'a str }:
            "no catalogue has a {part} \"{name}\""
            | "kein Katalog hat {part} „{name}“",
        OtherFamily { family: &'a str, of: &'a str, station: &'a str }:
            "the survey names the station \"{station}\", which is of the family {of}, not of {family}"
            | "die Aufnahme nennt die Station „{station}“; sie gehört zur Gerätefamilie {of}, nicht zu {family}",
        Count { count: usize, part: &'a CountedPart, limit: usize }:
            "{count} {part}; the family allows {limit}"
            | "{count} {part}; die Gerätefamilie erlaubt {limit}",
        OutOfReach { item: &'a str, place: &'a str, length: &'a str }:
            "{item} cannot be fed even with a cable of its own: the nearest place for a box, {place}, is {length} m of cable away"
            | "{item} ist selbst mit eigener Leitung nicht zu speisen: Der nächste Ort für einen Verteiler, {place}, ist {length} m Leitung entfernt",
        PortCurrent { item: &'a str, limit: &'a str }:
            "{item} alone takes more current than any port of the family gives ({limit} A at most). Wire it by hand from an output of the supply, or take a distributor without such a limit"
            | "{item} braucht allein mehr Strom, als ein Abgang der Gerätefamilie gibt (höchstens {limit} A). Von Hand an einen Ausgang des Netzteils legen, oder einen Verteiler ohne solche Grenze nehmen",
        Together:
            "no arrangement that was tried keeps every limit, and to loosen one limit alone does not help"
            | "keine versuchte Anordnung hält jede Grenze ein, und eine Grenze allein zu lockern hilft nicht",
        TogetherBut { relaxation: &'a Both }:
            "no arrangement that was tried keeps every limit; {relaxation}"
            | "keine versuchte Anordnung hält jede Grenze ein; {relaxation}",
        WithoutLimit { limit: &'a Both }:
            "without the limit on {limit} there is one"
            | "ohne die Grenze für {limit} gibt es einen",
        WithoutLocked:
            "without the locked decisions there is one"
            | "ohne die Festlegungen gibt es einen",
        LargerSupply:
            "with a larger supply there is one: the family has no isolating box to join a second supply"
            | "mit einem größeren Netzteil gibt es einen: Die Gerätefamilie hat keinen trennenden Verteiler für ein zweites Netzteil",
        LargerSupplies: "with larger supplies there is one" | "mit größeren Netzteilen gibt es einen",
        Rejected { plans: usize, findings: &'a str }:
            "none of the {plans} plans that were checked passes; the nearest to it fails by {findings}"
            | "keiner der {plans} geprüften Pläne besteht; der nächste scheitert an {findings}",
        RejectedUntried { findings: &'a str }: "{findings}" | same,
        Unmendable { findings: &'a str }:
            "no wiring mends this; correct the survey: {findings}"
            | "das behebt keine Verdrahtung; die Aufnahme berichtigen: {findings}",
        // What no plan changes.
        Sentence { message: &'a str, hint: Option<&'a str>, more: Option<usize> }:
            "{message}<, and {more} more alike>< ({hint})>"
            | "{message}<, und {more} weitere davon>< ({hint})>",
        // One finding of a plan.
        Finding { code: &'a str, element: Option<&'a str>, figures: Option<&'a Both>, more: Option<usize> }:
            "{code}< {element}>< ({figures})>< and {more} more>"
            | "{code}< {element}>< ({figures})>< und {more} weitere>",
        Against { value: &'a str, limit: &'a str }: "{value} against {limit}" | "{value} gegen {limit}",
        NothingTakesIt:
            "no run, port or trunk can take it"
            | "kein Strang, Abgang oder Stammstrang kann es aufnehmen",
        AddressWouldChange { station: &'a str }:
            "the address of {station} would change, so that change was not made"
            | "die Adresse von {station} würde sich ändern, daher bleibt diese Änderung aus",
        NotApplicable { error: &'a str }: "{error}" | "die Änderung passt nicht in die Anlagendatei ({error})",
    }
}

sentences! {
    /// What a person must know of a design that its price does not show.
    pub enum RemarkWords<'a> {
        Batteries { further: usize }:
            "{further:further battery|further batteries} in parallel for the standby hours, not in the price: the catalogue has no price for a battery alone."
            | "{further:weitere Batterie|weitere Batterien} parallel für die Überbrückungszeit, nicht im Preis: Der Katalog nennt keinen Preis für eine Batterie allein.",
        OneMainDoor { main: &'a str, others: &'a str }:
            "{main} calls the most and is the main door; {others} would have its number and is numbered as a secondary one."
            | "{main} ruft die meisten und ist der Haupteingang; {others} hätte dieselbe Nummer und zählt als Nebeneingang.",
        FurtherBuilding { building: &'a str, dwellings: usize, room: usize, first: &'a str, last: &'a str, new: &'a str }:
            "{building} has {dwellings} dwellings and the family numbers {room} in a building: {first} to {last} are numbered as a building of their own, {new}. What the check says of cables between these two buildings does not apply."
            | "{building} hat {dwellings} Wohnungen, und die Gerätefamilie nummeriert {room} in einem Gebäude: {first} bis {last} sind als eigenes Gebäude {new} nummeriert. Was die Prüfung über Leitungen zwischen diesen beiden Gebäuden sagt, gilt nicht.",
        LeftUnused { cables: &'a str, more: Option<usize> }:
            "Old cable left unused: {cables}<, {more} more>. A run takes old cable only where it leads all the way, and where that does."
            | "Alte Leitung bleibt unbenutzt: {cables}<, {more} weitere>. Ein Strang nimmt alte Leitung nur, wo sie den ganzen Weg führt und genügt.",
        Damaged { from: &'a str, to: &'a str, insulation: &'a str }:
            "The old cable from {from} to {to} is left unused: its insulation of {insulation} Mohm is too low."
            | "Die alte Leitung von {from} nach {to} bleibt unbenutzt: Ihr Isolationswiderstand von {insulation} Mohm ist zu klein.",
    }
}

sentences! {
    /// What would make a design where there is none.
    pub enum WayOutWords<'a> {
        Without { limit: &'a Both }: "without the limit on {limit}" | "ohne die Grenze für {limit}",
        NoBattery: "without hours on battery" | "ohne Überbrückungszeit",
        Warnings: "with warnings" | "mit Warnungen",
        AnyCableTypes: "with several types of cable" | "mit mehreren Leitungsarten",
        BoxesInDwellings: "with boxes in dwellings" | "mit Verteilern in Wohnungen",
        Unlocked { decision: &'a str }: "without the locked decision \"{decision}\"" | "ohne die Festlegung „{decision}“",
        AnyCable: "with any cable of the catalogue" | "mit jeder Leitung des Katalogs",
        Chains: "with cables that loop through dwellings" | "mit Leitungen, die durch Wohnungen schleifen",
        NewCable: "with new cable in place of all old cable" | "mit neuer Leitung statt aller alten",
        Mains { places: &'a str }: "with mains at {places} as well" | "mit Netzanschluss auch an {places}",
        MainsAnywhere: "with mains at every place for a box" | "mit Netzanschluss an jedem Verteilerort",
        OwnBuses { left: Option<&'a str> }:
            "if every door calls its own building alone, on a bus of its own< ({left} left out)>"
            | "wenn jede Tür nur ihr eigenes Gebäude ruft, an einem eigenen Bus< (ohne {left})>",
        Family { family: &'a str }: "with the family {family}" | "mit der Gerätefamilie {family}",
        Priced { what: &'a Both, cost: &'a str, currency: &'a str }: "{what}: {cost} {currency}" | same,
        Head: "What would give a design, tried and priced:" | "So gäbe es einen Entwurf, versucht und mit Preis:",
        InVain { ways: &'a Both }:
            "Also tried, with a few plans each, without success: {ways}."
            | "Mit je wenigen Plänen auch versucht, ohne Erfolg: {ways}.",
    }
}

sentences! {
    /// A step of a change.
    pub enum StepWords<'a> {
        NumbersStated:
            "numbers in addresses stated as they are set, so that none changes"
            | "Adressnummern angegeben, wie sie eingestellt sind, damit sich keine ändert",
        LoopedInBefore { item: &'a str, run: &'a str, before: &'a str }:
            "{item} looped into {run} before {before}"
            | "{item} in {run} eingeschleift, vor {before}",
        LoopedInAtEnd { item: &'a str, run: &'a str }:
            "{item} looped into {run} at its end"
            | "{item} in {run} eingeschleift, am Ende",
        OnPort { item: &'a str, port: &'a str, cable: &'a str }:
            "{item} on {port} with {cable}"
            | "{item} an {port} mit {cable}",
        FurtherBox { name: &'a str, model: &'a str, trunk: &'a str, then: &'a Both }:
            "a further box {name} ({model}) at the end of {trunk}; {then}"
            | "ein weiterer Verteiler {name} ({model}) am Ende von {trunk}; {then}",
        MovedFrom { run: &'a str, then: &'a Both }: "moved from {run}: {then}" | "von {run} versetzt: {then}",
        PulledAnew { run: &'a str, cable: &'a str, old: &'a str }:
            "{run} pulled anew with {cable} in place of {old}"
            | "{run} neu gezogen mit {cable} statt {old}",
        OtherSupply { supply: &'a str, model: &'a str, old: &'a str }:
            "{supply}: {model} in place of {old}"
            | "{supply}: {model} statt {old}",
        OtherLength { run: &'a str, surveyed: &'a Both, stated: &'a Both }:
            "{run}: {surveyed} m of cable by the survey, not {stated} m"
            | "{run}: {surveyed} m Leitung nach der Aufnahme, nicht {stated} m",
        Withdrawn { part: &'a str, model: &'a str, count: usize }:
            "{part} is withdrawn: {model} in its place, {count} times"
            | "{part} ist abgekündigt: {model} an seiner Stelle, {count}-mal",
        BesideForPorts { done: &'a Both, name: &'a str, beside: &'a str }:
            "{done}; {name} beside {beside} for the ports that are missing"
            | "{done}; {name} neben {beside} für die fehlenden Abgänge",
        // What is left as it is.
        NotInSurvey { item: &'a str }:
            "{item} is not in the survey; it stays as it is"
            | "{item} steht nicht in der Aufnahme; es bleibt, wie es ist",
        OtherStations { item: &'a str, surveyed: usize, installed: usize }:
            "{item} has {surveyed} stations in the survey and {installed} in the site; they stay as they are"
            | "{item} hat {surveyed} Stationen in der Aufnahme und {installed} in der Anlage; sie bleiben, wie sie sind",
        WithdrawnCable { run: &'a str, cable: &'a str }:
            "{run} has the withdrawn cable {cable}; pulled cable stays"
            | "{run} hat die abgekündigte Leitung {cable}; gezogene Leitung bleibt",
    }
}

sentences! {
    /// The declared design space, line by line.
    pub enum SpaceWords<'a> {
        Order { how: &'a Both, tried: &'a Both }:
            "Items (dwellings, door stations, desks) are taken in the order in which one walks past them: {how}. {tried} tried."
            | "Teilnehmer (Wohnungen, Türstationen, Pförtnerplätze) kommen in der Reihenfolge, in der man an ihnen vorbeigeht: {how}. {tried} versucht.",
        Small: "any order, since the site is small" | "jede Reihenfolge, da die Anlage klein ist",
        AlongTheWays:
            "the shortest ways, each branch to its end; at one place as the survey lists them"
            | "die kürzesten Wege, jeder Zweig bis zum Ende; an einem Ort wie in der Aufnahme",
        OneOrder: "1 such order was" | "1 solche Reihenfolge wurde",
        Orders { orders: usize }: "{orders} such orders were" | "{orders} solche Reihenfolgen wurden",
        Runs:
            "A run starts at a port of a distributor and serves items next to one another in that order, forwards or backwards, with one kind of cable. On a site of up to 24 items, up to four on a run come in any order. Other groupings were not tried and may be cheaper."
            | "Ein Strang beginnt an einem Abgang eines Verteilers und bedient Teilnehmer, die in dieser Reihenfolge aufeinander folgen, vorwärts oder rückwärts, mit einer Leitungsart. Bei bis zu 24 Teilnehmern stehen bis zu vier an einem Strang in jeder Folge. Andere Aufteilungen wurden nicht versucht und können billiger sein.",
        OwnRuns:
            "A station that cannot be looped is the last of its chain. On a site of up to 120 items, a chain's one door station or desk may stand anywhere in it. An entrance with its own surge protector has its own run."
            | "Eine Station, die sich nicht schleifen lässt, ist die letzte ihrer Kette. Bei bis zu 120 Teilnehmern steht die eine Türstation oder der eine Pförtnerplatz einer Kette an jeder Stelle. Ein Eingang mit eigenem Überspannungsschutz hat einen eigenen Strang.",
        OnOutputs:
            "An output of the first supply may also feed a run without any distributor."
            | "Ein Ausgang des ersten Netzteils kann auch einen Strang ohne Verteiler speisen.",
        Cascade { near: usize }:
            "With one supply, an output may feed a distributor at one of the {near} nearest box places. Its ports take runs, or trunks to distributors that have runs alone."
            | "Bei einem Netzteil kann ein Ausgang einen Verteiler an einem der {near} nächsten Verteilerorte speisen. Dessen Abgänge speisen Stränge, oder Stammstränge zu Verteilern, die nur Stränge haben.",
        Trunks:
            "A distributor serves neighbouring runs. A trunk loops through the distributors of neighbouring items and feeds them. A supply has one or two trunks."
            | "Ein Verteiler bedient benachbarte Stränge. Ein Stammstrang schleift durch die Verteiler benachbarter Teilnehmer und speist sie. Ein Netzteil hat einen oder zwei Stammstränge.",
        Cable:
            "All trunks have one kind of cable; where it may not run, another at least as thick. A trunk may have two pairs in parallel; other new cable uses one. Cable in the walls is used where it leads all the way of a run."
            | "Alle Stammstränge haben eine Leitungsart; wo sie nicht liegen darf, eine mindestens ebenso dicke. Ein Stammstrang kann zwei Paare parallel haben; andere neue Leitung nutzt eines. Vorhandene Leitung wird genutzt, wo sie den ganzen Weg eines Strangs führt.",
        Branches { most: usize, boxes: &'a str, near: usize }:
            "A run of up to {most} items may also be a riser that loops through branch boxes ({boxes}), with a chain on each of their ports in the walking order. A branch box stands at one of the {near} box places nearest to its first dwelling. One division into boxes and chains is tried for each run: the cheapest in boxes and cheapest cable, with one kind of cable."
            | "Ein Strang von bis zu {most} Teilnehmern kann auch eine Steigleitung sein, die durch Abzweigdosen ({boxes}) schleift, mit einer Kette an jedem Abgang in der Gehreihenfolge. Eine Abzweigdose steht an einem der {near} Verteilerorte, die ihrer ersten Wohnung am nächsten sind. Je Strang wird eine Teilung in Dosen und Ketten versucht: die billigste an Dosen und billigster Leitung, mit einer Leitungsart.",
        NearBoxes { near: usize }:
            "A run starts at one of the {near} box places nearest to the first of its items in that order."
            | "Ein Strang beginnt an einem der {near} Verteilerorte, die dem ersten seiner Teilnehmer in dieser Reihenfolge am nächsten sind.",
        Supplies { isolator: &'a str, most: usize }:
            "At most {most} supplies, each for neighbouring items. The first serves from the start of the walk, with its first distributor at the box place nearest to it. Every further one stands at one of the two places with mains nearest to its first item and feeds a {isolator}. Their signal links come from the first distributor; with more than three, from distributors for links alone."
            | "Höchstens {most} Netzteile, jedes für benachbarte Teilnehmer. Das erste bedient vom Anfang des Gangs an, mit seinem ersten Verteiler am nächsten Verteilerort. Jedes weitere steht an einem der beiden Orte mit Netzanschluss, die seinem ersten Teilnehmer am nächsten sind, und speist einen {isolator}. Die Signalverbindungen kommen vom ersten Verteiler; bei mehr als dreien von Verteilern nur für Verbindungen.",
        Buses { groups: usize, buses: usize, kinds: usize, most: usize, items: usize }:
            "{groups} groups of stations call only among themselves. They have {buses} buses of {kinds:kind|kinds} that share no cable and no part. A bus takes one group, or up to {most} neighbouring ones with up to {items} items together. Its boxes and supplies stand in the buildings of its stations, if there are places for them. All lines below are about each bus."
            | "{groups} Gruppen von Stationen rufen nur untereinander. Sie haben {buses} Busse von {kinds:Art|Arten}, die weder Leitung noch Gerät teilen. Ein Bus nimmt eine Gruppe auf, oder bis zu {most} benachbarte mit zusammen bis zu {items} Teilnehmern. Seine Verteiler und Netzteile stehen in den Gebäuden seiner Stationen, wenn dort Orte dafür sind. Alle Zeilen darunter gelten für jeden Bus.",
        OneSupply:
            "One supply: the family has no isolating box to join a second one."
            | "Ein Netzteil: Die Gerätefamilie hat keinen trennenden Verteiler für ein zweites.",
        Margin { volts: Figure }:
            "Every station and box keeps at least {volts} above its limit."
            | "Jede Station und jeder Verteiler behält mindestens {volts} über dem Grenzwert.",
        NoWarnings:
            "A design that the check warns of does not count."
            | "Ein Entwurf, vor dem die Prüfung warnt, zählt nicht.",
        OneCableType:
            "All new cable of the bus is of one type. Each type that may run on every way was tried by itself, and the bound is the least of theirs."
            | "Alle neue Leitung des Busses ist von einer Art. Jede Art, die auf jedem Weg liegen darf, wurde für sich versucht; die Schranke ist die kleinste von ihren.",
        Locked { decisions: &'a str }:
            "What the survey locks is kept: {decisions}. A locked box serves at least the dwelling nearest to it."
            | "Was die Aufnahme festlegt, bleibt: {decisions}. Ein festgelegter Verteiler versorgt mindestens die nächste Wohnung.",
        AtMost { limits: &'a Both }: "A run has at most {limits}." | "Ein Strang hat höchstens {limits}.",
        Stations { stations: usize }: "{stations} stations" | "{stations} Stationen",
        Dwellings { dwellings: usize }: "{dwellings} dwellings" | "{dwellings} Wohnungen",
        MetresToEnd { metres: usize }: "{metres} m to its end" | "{metres} m bis zum Ende",
        MetresOfCable { metres: usize }: "{metres} m of cable" | "{metres} m Leitung",
        Cables { cables: &'a str }:
            "Cables: {cables}. Others cost more and conduct no better, or have no line constants, so that their signal cannot be judged."
            | "Leitungen: {cables}. Andere kosten mehr und leiten nicht besser, oder ihnen fehlen Leitungskonstanten, sodass sich ihr Signal nicht beurteilen lässt.",
        Parts { distributors: &'a str, supplies: &'a str }:
            "Distributors: {distributors}. Supplies: {supplies}."
            | "Verteiler: {distributors}. Netzteile: {supplies}.",
    }
}

words! {
    /// Heads of the comparison of families, each of a width of its own.
    pub enum ComparisonHead {
        Family: "family" | "Familie",
        AtLeast: "at least" | "mindestens",
        Boxes: "boxes" | "Vert.",
        Supplies: "supplies" | "Netzteile",
        Runs: "runs" | "Strg.",
        CableMetres: "cable m" | "Leitung m",
        VoltsInHand: "V in hand" | "V Res.",
        Verdict: "verdict" | "Ergebnis",
    }
}

sentences! {
    /// The result of `design`.
    pub enum DesignWords<'a> {
        Wrote { file: &'a str, family: &'a str, verdict: &'a DesignVerdict }:
            "wrote {file} ({family}): {verdict}."
            | "{file} geschrieben ({family}): {verdict}.",
        Contents { supplies: &'a Both, boxes: &'a Both, runs: &'a Both, cable: &'a str, stations: &'a Both }:
            "{supplies}, {boxes}, {runs}, {cable} m of new cable for {stations}."
            | "{supplies}, {boxes}, {runs}, {cable} m neue Leitung für {stations}.",
        Supplies { count: usize }: "{count:supply|supplies}" | "{count:Netzteil|Netzteile}",
        Boxes { count: usize }: "{count:box|boxes}" | "{count:Verteiler|Verteiler}",
        Runs { count: usize }: "{count:run|runs}" | "{count:Strang|Stränge}",
        Stations { count: usize }: "{count:station|stations}" | "{count:Station|Stationen}",
        Tightest { device: &'a str, margin: &'a str }:
            "Tightest: {device}, {margin} V above its limit."
            | "Am knappsten: {device}, {margin} V über dem Grenzwert.",
        Cost { cost: &'a str, currency: &'a str, material: &'a str, hours: &'a str }:
            "Cost {cost} {currency}: material {material}, labour {hours} h."
            | "Kosten {cost} {currency}: Material {material}, Arbeit {hours} h.",
        Bound { bound: &'a str, saved: &'a str, saved_of_part: &'a str, part: &'a str }:
            "Another design of the kinds considered saves at most {saved} % of that, since none of them costs less than {bound}. Of the {part} that a plan decides, without stations and locks, this is {saved_of_part} %."
            | "Ein anderer Entwurf der betrachteten Arten spart davon höchstens {saved} %, denn keiner kostet weniger als {bound}. Von den {part}, über die ein Plan entscheidet, ohne Stationen und Schlösser, sind das {saved_of_part} %.",
        MaterialHolds:
            "Material is the parts of the plan, with cable by the metre; spare stations and whole drums are added in the parts list of the pack."
            | "Material sind die Teile des Plans, Leitung nach Metern; Reservestationen und ganze Trommeln kommen in der Stückliste der Mappe hinzu.",
        Warning { message: &'a str, code: &'a str, also: Option<&'a str> }:
            "Warning: {message} ({code})<; also {also}>."
            | "Warnung: {message} ({code})<; ebenso {also}>.",
        LineWithoutPrice:
            "One line of the parts list has no price and is not in the sum."
            | "Eine Zeile der Stückliste hat keinen Preis und ist nicht in der Summe.",
        LinesWithoutPrice { lines: usize }:
            "{lines} lines of the parts list have no price and are not in the sum."
            | "{lines} Zeilen der Stückliste haben keinen Preis und sind nicht in der Summe.",
        LimitCosts { limit: &'a Both, price: &'a str }:
            "Without the limit on {limit} it would cost about {price} less."
            | "Ohne die Grenze für {limit} würde es etwa {price} weniger kosten.",
        KindsInShort:
            "The kinds considered are listed with --kinds; designs of other kinds may be cheaper."
            | "Die betrachteten Arten zeigt --kinds; Entwürfe anderer Art können billiger sein.",
        Kinds: "Kinds of design considered:" | "Betrachtete Arten von Entwürfen:",
        NoDesign: "There is no design:" | "Es gibt keinen Entwurf:",
        Obstacle { family: &'a str, obstacle: &'a str }: "{family}: {obstacle}." | same,
        CannotFamily { obstacle: &'a str }: "cannot: {obstacle}" | "geht nicht: {obstacle}",
        CostIn { currency: &'a str }: "cost {currency}" | "Kosten {currency}",
        Orders { family: &'a str, orders: usize, cost: &'a str, bound: &'a str }:
            "{family}: {orders} orders, {cost}, at least {bound}"
            | "{family}: {orders} Reihenfolgen, {cost}, mindestens {bound}",
        // A change.
        NoChange { obstacle: &'a str }:
            "No change was found that passes: {obstacle}."
            | "Keine Änderung gefunden, die besteht: {obstacle}.",
        NothingAsked:
            "The site has everything that the survey asks for already."
            | "Die Anlage hat bereits alles, was die Aufnahme verlangt.",
        StepCost { step: &'a str, cost: &'a str, currency: &'a str }: "{step}: {cost} {currency}" | same,
        Left { what: &'a str }: "left: {what}" | "bleibt: {what}",
        ChangeCost { cost: &'a str, currency: &'a str, judged: usize }:
            "Cost of the change {cost} {currency}, material and labour: the cheapest that passes, of {judged} that were tried. Addresses, boxes, places and other runs stay."
            | "Kosten der Änderung {cost} {currency}, Material und Arbeit: die billigste, die besteht, von {judged} versuchten. Adressen, Verteiler, Orte und die übrigen Stränge bleiben.",
    }
}

words! {
    /// How a design stands.
    pub enum DesignVerdict {
        Passes: "holds in every state that was calculated" | "in jedem gerechneten Zustand eingehalten",
        PassesAssumed: "holds in every state that was calculated, on assumed values"
            | "in jedem gerechneten Zustand eingehalten, auf Grundlage von Annahmen",
        PassesJudged:
            "nothing failed, but not all was judged"
            | "nichts verletzt, aber nicht alles beurteilt",
    }
}

sentences! {
    /// Comments of a site file that a design makes.
    pub enum FileComment<'a> {
        MadeOf { title: &'a str }:
            "{title}: made by latchline design from the survey."
            | "{title}: von latchline design aus der Aufnahme gemacht.",
        Contents { dwellings: usize, entrances: usize, supplies: usize, boxes: usize }:
            "{dwellings:dwelling|dwellings} and {entrances:entrance|entrances} on {supplies:one supply|# supplies} by way of {boxes:distributor|distributors}."
            | "{dwellings:Wohnung|Wohnungen} und {entrances:Zugang|Zugänge} an {supplies:einem Netzteil|# Netzteilen} über {boxes:Verteiler|Verteiler}.",
        ContentsOfSupplies { dwellings: usize, entrances: usize, supplies: usize }:
            "{dwellings:dwelling|dwellings} and {entrances:entrance|entrances} on {supplies:one supply|# supplies} by way of its outputs alone."
            | "{dwellings:Wohnung|Wohnungen} und {entrances:Zugang|Zugänge} an {supplies:einem Netzteil|# Netzteilen}, nur über dessen Ausgänge.",
        Lengths { slack: &'a str, end: &'a str }:
            "Lengths are the survey's ways with {slack} % slack and {end} m at each end."
            | "Längen sind die Wege der Aufnahme mit {slack} % Zuschlag und {end} m an jedem Ende.",
        Buses { buses: usize }:
            "{buses:bus|buses}: nobody calls from one to another."
            | "{buses:Bus|Busse}: niemand ruft von einem zum anderen.",
        Group { most: &'a str }:
            "No run has more than {most} dwellings: one broken joint silences no more."
            | "Kein Strang hat mehr als {most} Wohnungen: mehr legt eine gebrochene Klemmstelle nicht still.",
        CheckIt: "Check it with: latchline check" | "Prüfen mit: latchline check",
        Entrances:
            "--- Entrances: who can call whom, and what opens ---"
            | "--- Zugänge: wer wen rufen kann, und was sich öffnet ---",
        Dwellings: "--- Dwellings ---" | "--- Wohnungen ---",
        Runs:
            "--- Runs: from here, to these in this order ---"
            | "--- Stränge: von hier, zu diesen in dieser Reihenfolge ---",
        From { supply: &'a str, place: &'a str }: "From {supply} ({place})" | "Von {supply} ({place})",
        SignalsOverLink { supply: &'a str }:
            "signals over its link, power from {supply}"
            | "Signale über die Verbindung (link), Strom von {supply}",
        SignalsToOthers: "signals to the other supplies" | "Signale zu den anderen Netzteilen",
        SignalsToBuses:
            "Signals to the other supplies' buses" | "Signale zu den Bussen der anderen Netzteile",
        PortsInUse { used: &'a str, ports: &'a str }:
            "{used} of {ports} ports in use" | "{used} von {ports} Abgängen belegt",
        LengthFromLoop:
            "Length from the measured loop: the survey states none"
            | "Länge aus der gemessenen Schleife: die Aufnahme nennt keine",
    }
}
