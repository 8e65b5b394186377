//! Relays in between, lights, heater and alarm inputs.

/// Hands these rows and those before them on to the next table.
macro_rules! fittings {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        CoilOfRelayBetween: "Coil of the relay in between, energised" | "Spule des Koppelrelais, bestromt",
        FeedAlternating: "feed ~" | "Speisung ~",
        PanelAdvice: "Door panel" | "Türtableau",
        RelayBetween: "relay in between, make contact" | "Koppelrelais, Schließer",
        RelayOnSecureSidePart:
            "relay on the secure side, of the door station's maker"
            | "Relais für die gesicherte Seite, vom Hersteller der Türstation",
        AlarmContact: "Alarm contact" | "Meldekontakt",
        AlarmInput: "Alarm input" | "Meldeeingang",
        ButtonLight: "light for buttons" | "Tastenbeleuchtung",
        CutNotNoticed: "a cut cable is not noticed" | "eine durchtrennte Leitung bleibt unbemerkt",
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
        MeasurePartLoop:
            "Loop resistance of the cable, short-circuited at the part"
            | "Schleifenwiderstand der Leitung, am fernen Ende kurzgeschlossen",
        MeasureContactLoop:
            "Resistance of the loop, contact bridged, station disconnected."
            | "Schleifenwiderstand bei gebrücktem Kontakt, Station abgeklemmt.",
        NameLight: "light for names" | "Namensbeleuchtung",
        PorchLight: "porch light" | "Außenleuchte",
        ReleasesLocks: "releases the locks of this door" | "gibt die Schlösser dieser Tür frei",
        RestsClosed: "contact closed at rest" | "Kontakt in Ruhe geschlossen",
        RestsOpen: "contact open at rest" | "Kontakt in Ruhe offen",
        StandbyLoad: "Standby load on the bus" | "Ruhelast am Bus",
        TamperAlarm: "tamper" | "Sabotage",
        }
    };
}

pub(super) use fittings;
