//! Interfaces to systems of other trades.

/// Hands these rows and those before them on to the next table.
macro_rules! interfaces {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        BriefInterfaceCut: "one wire of it opened, joined again" | "eine Ader davon geöffnet, wieder angeschlossen",
        CarriesMissing:
            "missing in the plan: to be asked of the owner before it is joined"
            | "fehlt im Plan: vor dem Anschließen beim Eigentümer zu erfragen",
        CarriesNotJudged:
            "not judged, see the door sheet"
            | "nicht beurteilt, siehe Türdatenblatt",
        ContactCarries: "It carries" | "Er führt",
        ContactOfInterface: "Contact" | "Kontakt",
        ContactRatingMissing:
            "the catalogue does not state what the door station's contact is made for"
            | "der Katalog gibt nicht an, wofür der Kontakt der Türstation gebaut ist",
        CurrentOfInput: "current of the door station's input" | "Strom des Eingangs der Türstation",
        CurrentOfLock:
            "current of the lock and highest voltage of its feed: the owner's contact must be made for it"
            | "Strom des Schlosses und größte Spannung seiner Speisung: Dafür muss der Kontakt des Eigentümers gebaut sein",
        CutIsTold:
            "the door station tells a cut wire from the contact; whether it then releases is in its settings, and is tried"
            | "die Türstation unterscheidet Drahtbruch und Kontakt; ob sie dann freigibt, liegt an ihrer Einstellung und wird probiert",
        CutLeavesGateShut:
            "the drive gets no release: the gate stays as it is; the owner's own controls still work"
            | "der Antrieb erhält keine Freigabe: Das Tor bleibt, wie es ist; die Bedienung des Eigentümers wirkt weiter",
        CutLeavesLift:
            "the lift gets no call: it stays as it is; its own controls still work"
            | "der Aufzug erhält keinen Befehl: Er bleibt, wie er ist; seine eigene Bedienung wirkt weiter",
        CutReleases: "the lock is released, as by the alarm" | "das Schloss wird freigegeben, wie bei Alarm",
        CutReleasesByStation:
            "the door station takes it for the alarm and releases its locks"
            | "die Türstation hält es für den Alarm und gibt ihre Schlösser frei",
        CutUnnoticed:
            "nothing, and nobody notices: the alarm would then release nothing. Try it at fixed intervals, or fit a contact that rests closed"
            | "nichts, und niemand merkt es: Bei Alarm wird dann nichts freigegeben. In festen Abständen probieren oder einen Öffner einsetzen",
        DryNormallyClosed: "dry, rests closed (normally closed)" | "potenzialfrei, in Ruhe geschlossen (Öffner)",
        DryNormallyOpen: "dry, rests open (normally open)" | "potenzialfrei, in Ruhe offen (Schließer)",
        DryOfStation:
            "dry, of the door station's relay, common and normally open"
            | "potenzialfrei, vom Relais der Türstation, COM (C) und Schließer",
        InterfaceColumn: "Interface" | "Schnittstelle",
        InterfaceCutTest:
            "With the owner of the other system: open one wire of the interface at our terminals; what happens is as its sheet says. Join it again."
            | "Mit dem Eigentümer der anderen Anlage: an unseren Klemmen eine Ader der Schnittstelle öffnen; was geschieht, steht auf ihrem Blatt. Wieder anschließen.",
        InterfaceOwner: "Owner of the other system" | "Eigentümer der anderen Anlage",
        InterfacesNote:
            "Nobody works on another trade's system: its owner trips it, isolates it and puts it back, and tells whoever receives its alarms before and after. The responsible person decides what is released; local codes prevail."
            | "An der Anlage eines anderen Gewerks arbeitet niemand: Ihr Eigentümer löst aus, schaltet ab und stellt zurück, und er unterrichtet vorher und nachher alle, bei denen ihre Meldungen eingehen. Was freigegeben wird, entscheidet die verantwortliche Person; örtliche Vorschriften gehen vor.",
        InterfacesTitle: "Interfaces to others' systems" | "Schnittstellen zu fremden Anlagen",
        NoInterfaces:
            "The plan has none: no contact of a fire alarm, no gate drive, no lift."
            | "Der Plan hat keine: kein Kontakt einer Brandmeldeanlage, kein Torantrieb, kein Aufzug.",
        OurTerminals: "Our terminals, each with what it is joined to" | "Unsere Klemmen, je mit ihrem Gegenüber",
        OwnerMissing:
            "missing in the plan: to be named before work begins"
            | "fehlt im Plan: vor Beginn der Arbeit zu benennen",
        Restore: "Put back" | "Zurückgestellt",
        RestoreHow:
            "wire joined and pulled at, the owner has reset and switched on again, whoever receives alarms is told, the door is shut and locked"
            | "Ader angeschlossen und auf Zug geprüft, der Eigentümer hat zurückgestellt und wieder eingeschaltet, die Empfänger der Meldungen wissen es, die Tür ist zu und verriegelt",
        SignedInterfaceOwner: "Signature of the owner of the other system" | "Unterschrift des Eigentümers der anderen Anlage",
        TestCut: "Tried: one wire opened" | "Probiert: eine Ader geöffnet",
        TestCutHow:
            "one wire opened at our terminals, its end insulated; what happened, in words"
            | "eine Ader an unseren Klemmen geöffnet, ihr Ende isoliert; was geschah, in Worten",
        TestTrip: "Tried: tripped" | "Probiert: ausgelöst",
        TestTripHow:
            "by the owner, or for a gate drive and a lift by a release from an indoor station; what happened, in words"
            | "durch den Eigentümer, bei Torantrieb und Aufzug durch eine Freigabe von einer Innenstation; was geschah, in Worten",
        TheirTerminals: "Terminals of the other system" | "Klemmen der anderen Anlage",
        TheirTerminalsMissing:
            "missing in the plan: to be stated by the owner"
            | "fehlt im Plan: vom Eigentümer anzugeben",
        TripReleases:
            "the contact opens the lock's own circuit: the lock is released, whatever the door station does"
            | "der Kontakt öffnet den Stromkreis des Schlosses selbst: Es wird freigegeben, was immer die Türstation tut",
        TripReleasesByStation:
            "the door station releases its locks, as long as it works"
            | "die Türstation gibt ihre Schlösser frei, solange sie arbeitet",
        WhenCut: "When a wire is cut" | "Bei Drahtbruch",
        WhenTripped: "When it trips" | "Wenn er anspricht",
        }
    };
}

pub(super) use interfaces;
