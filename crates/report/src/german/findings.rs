//! German sentences of findings, in the small language of the report's templates; beside each message of the
//! English report stands one here, checked by a test.

/// The sentence of a code.
pub fn template(code: &str) -> Option<&'static str> {
    SENTENCES.iter().find(|(known, _)| *known == code).map(|(_, sentence)| *sentence)
}

/// Every sentence, by code.
pub const SENTENCES: &[(&str, &str)] = &[
    ("voltage-too-low", "{element} hat {value} und braucht {limit} ({state})"),
    ("voltage-too-high", "{element} bekommt bis zu {value} und verträgt {limit} ({state})"),
    ("thin-margin", "{element} hat nur {value} über den nötigen {least} ({state})"),
    (
        "no-operating-point",
        "Der Bus von {element} bricht zusammen ({state}): Keine Spannungen erfüllen die Schaltung<; es fallen aus: {devices}>",
    ),
    ("supply-overloaded", "{element} muss {value} geben und ist für {limit} bemessen ({state})"),
    ("port-overloaded", "Abgang {element} muss {value} geben und gibt höchstens {limit} ({state})"),
    (
        "supply-count-exceeded",
        "{element} speist mehr Stationen, als das Datenblatt erlaubt: {models}; zusammen {value} von voll bei {limit}",
    ),
    (
        "bus-voltage-above-selv",
        "{element} führt {value}, mehr als die {limit}, die man im Trockenen gefahrlos berührt",
    ),
    ("bus-voltage-wet", "{element} ist im Freien an {value}; nass darf man nur {limit} gefahrlos berühren"),
    (
        "cascade-too-deep",
        "{element} ist Nummer {value} in einer Kaskade von Verteilern; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "too-many-door-stations",
        "Die Anlage hat {value} Türstationen; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "too-many-stations-in-dwelling",
        "{element} hat {value} Stationen; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "too-many-stations-on-port",
        "Am Abgang {element} hängen {value} Stationen; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "total-length-exceeded",
        "Am Abgang {element} hängen {value} Leitung; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "run-too-long",
        "Der Weg von {from} nach {to} ist {value} lang; die Gerätefamilie {family} erlaubt {limit}",
    ),
    (
        "branch-not-allowed",
        "{element} verzweigt in die Stränge {runs}; Ketten der Gerätefamilie {family} dürfen sich nicht teilen",
    ),
    (
        "chain-not-allowed",
        "Strang {element} kettet {stations}; die Gerätefamilie {family} wird sternförmig verdrahtet",
    ),
    (
        "end-station-looped",
        "Von {element} geht die Leitung weiter nach {next}, aber {model} hat nur ein Klemmenpaar",
    ),
    ("mixed-families", "{element} gehört zur Gerätefamilie {family} an einem Bus von {expected}"),
    (
        "bus-of-another-family",
        "Der Bus von {element} gehört zur Gerätefamilie {family}, nicht zu {expected} wie die Anlage",
    ),
    (
        "terminator-missing",
        "{station}, die letzte am Strang {element}, hat keinen Abschluss; die Gerätefamilie {family} braucht einen",
    ),
    ("terminator-doubled", "Die Kette am Abgang {port} hat mehr als einen Abschluss: an den Strängen {runs}"),
    (
        "terminator-misplaced",
        "Der Abschluss des Strangs {element} ist an {stop} gesetzt, wo die Kette nicht endet",
    ),
    (
        "terminator-not-needed",
        "Strang {element} hat einen Abschluss; die Gerätefamilie {family} braucht keinen",
    ),
    (
        "terminator-without-capacitor",
        "Der Abschluss des Strangs {element} hat keinen Kondensator in Reihe: {voltage} an {resistance} heizen ihn mit {value}",
    ),
    ("cable-unsuitable", "Strang {element} liegt {environment}; {cable} ist gemacht für {allowed}"),
    ("beside-mains", "Strang {element} liegt ungetrennt neben Netzleitungen"),
    ("clad-aluminium", "{cable} ist {material}, an {elements}"),
    ("more-pairs-than-cable", "Strang {element} nutzt {value} Paare parallel; {cable} hat {limit}"),
    (
        "outdoor-run-without-surge-protection",
        "Strang {element} läuft {value} im Freien ohne Überspannungsschutz",
    ),
    ("existing-run-not-measured", "Strang {element} ist eine vorhandene Leitung, nicht gemessen: {missing}"),
    ("insulation-too-low", "Die Isolation des Strangs {element} ist {value}, weniger als {limit}"),
    (
        "measured-loop-differs",
        "Die Schleife des Strangs {element} misst {value}; {length} {cable} haben {expected}",
    ),
    (
        "measured-capacitance-differs",
        "Strang {element} misst {capacitance} wie {value} {cable}; angegeben sind {length}",
    ),
    ("chain-through-dwellings", "Strang {element} läuft durch fremde Wohnungen: {dwellings}"),
    (
        "silenced-group",
        "Eine lose Verbindung am Strang {element} legt {value} Wohnungen still; die Vorgabe ist höchstens {limit}",
    ),
    ("supply-without-load", "Netzteil {element} speist nichts"),
    ("link-not-wired", "Der Signaleingang des trennenden Verteilers {element} ist offen"),
    ("box-without-runs", "Verteiler {element} speist nichts"),
    (
        "no-spare-ports",
        "Am Verteiler {element} sind {value} von {ports} Abgängen frei; die Vorgabe ist {limit}",
    ),
    ("no-entrance", "Die Anlage hat keinen Eingang für ihre {dwellings:Wohnung|Wohnungen}"),
    ("dwelling-without-entrance", "Kein Eingang ruft {element}"),
    ("entrance-calls-nobody", "Eingang {element} kann niemanden rufen"),
    ("entrance-without-lock", "Eingang {element} hat kein Schloss"),
    ("call-across-buses", "{element} erreicht nicht, wen er ruft: {called}"),
    ("directory-too-small", "{element} soll {value} Wohnungen rufen; {model} kann {limit} rufen"),
    ("accessory-chain-too-long", "{element} hat {value} Module; {model} nimmt {limit}"),
    (
        "accessory-current-exceeded",
        "{modules:Modul zieht|Module ziehen} an {element} zusammen {value}; {model} gibt {limit}",
    ),
    ("acceptance-without-match", "Nichts passt auf diese Akzeptanz von {code}<, {element}>"),
    (
        "signal-too-weak",
        "{element} hört {caller} mit {value} Dämpfung bei {frequency}; erlaubt sind im Band {band} {limit}",
    ),
    (
        "signal-notch",
        "{element} hat von {caller} eine Kerbe von {value} bei {frequency} im Band {band}; erlaubt sind {limit}",
    ),
    ("signal-ripple", "Das Band {band} von {caller} schwankt an {element} um {value}; erlaubt sind {limit}"),
    ("line-constants-missing", "{element} ist eine Leitung ohne Leitungskonstanten"),
    (
        "supply-shorts-signal",
        "{count:Speisung|Speisungen} von {feeds} schließen das Signal kurz<: unter {value}, es beginnt bei {limit}>",
    ),
    (
        "start-up-fails",
        "{element} läuft nicht an: {down} von {of} Geräten bleiben aus ({state})<, darunter {first_down}><; {limited_by} an der Grenze>",
    ),
    (
        "start-up-hiccups",
        "{element} läuft an und fällt immer wieder aus ({state})<, alle {period}>: {down} von {of} Geräten sind aus",
    ),
    (
        "start-up-dip",
        "{element} ist schon an und fällt auf {value}, während andere anlaufen; nötig sind {limit}",
    ),
    (
        "short-circuit-not-detected",
        "Ein Kurzschluss am Ende des Strangs {element} zieht {current}, und nichts spricht an<; nötig sind {limit}>",
    ),
    (
        "short-circuit-not-cleared",
        "Ein Kurzschluss am Ende des Strangs {element} bleibt mit {current} stehen und erwärmt {cable} auf {value}; erlaubt sind {limit}",
    ),
    (
        "short-circuit-darkens",
        "Ein Kurzschluss am Strang {element} legt {count:weitere Wohnung|weitere Wohnungen} still: {dwellings}",
    ),
    (
        "trip-below-legitimate-current",
        "{element} spricht bei {limit} an, und im Betrieb dürfen {value} fließen",
    ),
    ("lock-voltage-too-low", "Das Schloss {lock} von {element} bekommt {value} und braucht {limit}"),
    ("lock-voltage-too-high", "Das Schloss {lock} von {element} bekommt bis zu {value} und verträgt {limit}"),
    ("lock-current-kind", "Das Schloss {lock} von {element} braucht {needs} und bekommt {gets}"),
    (
        "lock-contact-wiring",
        "Das Schloss {lock} von {element} {kind}; sein Relaiskontakt muss {required} sein, nicht {stated}",
    ),
    (
        "lock-duty-exceeded",
        "Das Schloss {lock} von {element} ist bestromt, {when}<, {value}>, und verträgt {duty_limit}",
    ),
    ("lock-feed-missing", "Das Schloss {lock} von {element} hat keine Speisung: {missing}"),
    (
        "lock-output-overloaded",
        "Das Schloss {lock} von {element} zieht {value}; der Ausgang von {station} gibt {limit}",
    ),
    ("lock-outputs-exceeded", "{element} hat {value} Schlösser; {station} hat {limit} Ausgänge"),
    (
        "relay-overloaded",
        "Das Schloss {lock} von {element} zieht {value}; der Relaiskontakt von {station} trägt {limit}",
    ),
    ("relay-on-unsecure-side", "Das Relais des Schlosses {lock} von {element} ist von außen zugänglich"),
    (
        "hold-time-overridden",
        "{station} gibt das Schloss {lock} von {element} {value} lang frei, nicht {limit} wie angegeben",
    ),
    ("suppression-missing", "Nichts fängt die Spannungsspitze des Schlosses {lock} von {element} ab"),
    ("suppression-unsuitable", "Das Schloss {lock} von {element} hat eine Diode an Wechselstrom"),
    (
        "escape-depends-on-bus",
        "Der Weg hinaus bei {element} hängt vom Bus ab: Nichts sonst öffnet das Schloss {lock}",
    ),
    ("escape-fail-secure", "Das Schloss {lock} von {element}, an einem Fluchtweg, bleibt ohne Strom zu"),
    (
        "exit-button-missing",
        "{element} lässt sich von innen nicht öffnen: Das Schloss {lock} hat weder Ausgangstaster noch mechanischen Weg hinaus",
    ),
    (
        "light-feed-missing",
        "Die Leuchte {light} von {element} hat keine Speisung: {station} hat keinen Ausgang für Leuchten",
    ),
    (
        "light-feed-unsuitable",
        "Die Leuchte {light} von {element} ist für {limit}<, {needs},> gebaut und bekommt {value}",
    ),
    (
        "light-output-overloaded",
        "Die {lights:Leuchte|Leuchten} von {element} ziehen {value}; der Leuchtenausgang von {station} gibt {limit}",
    ),
    ("heater-missing", "{element} rechnet mit einer Heizung; {station} gibt keine an"),
    ("alarm-inputs-exceeded", "{element} hat {value} Meldekontakte; {station} hat {limit} Eingänge"),
    (
        "alarm-loop-too-long",
        "Die Meldeschleife ({kind}) von {element} hat {value}; {station} liest bis {limit}",
    ),
    (
        "alarm-cable-not-watched",
        "Niemand merkt, wenn die Meldeleitung ({kind}) von {element} durchtrennt wird: Der Kontakt ist in Ruhe offen",
    ),
    ("alarm-tells-nobody", "Die Meldung ({kind}) von {element} geht an niemanden"),
    (
        "fire-release-through-station",
        "Die Brandmeldeanlage gibt {locks} von {element} nur über die Türstation frei",
    ),
    ("country-without-rules", "Für das Land „{country}“ sind hier keine Regeln bekannt"),
    (
        "fire-interlock-missing",
        "Die Brandmeldeanlage gibt das Schloss {lock} von {element} nicht frei<, {role}>",
    ),
    (
        "fire-interlock-without-effect",
        "Die Brandfallsteuerung von {element} gibt keines der Schlösser frei: {locks}",
    ),
    (
        "delayed-egress-too-long",
        "Das Schloss {lock} von {element} verzögert den Weg hinaus um {value}<; erlaubt sind höchstens {limit}>",
    ),
    ("escape-advice", "Schlösser an Fluchtwegen bei {doors}: siehe {sources}"),
    (
        "control-height",
        "Die Bedienelemente von {element} liegen {value} über dem Boden; für alle erreichbar sind {least} bis {most}",
    ),
    ("battery-hours-short", "Die Batterie von {element} hält {value}; die Vorgabe ist {limit}"),
    (
        "battery-end-voltage-low",
        "{count:Gerät fällt|Geräte fallen} aus, bevor die Batterie von {element} leer ist, {worst} zuerst<: {value}, nötig sind {limit}>",
    ),
    (
        "charger-too-small",
        "Das Ladegerät von {element} gibt {value}; um die Batterie in einem Tag zu laden, braucht es {limit}",
    ),
    ("supply-too-hot", "Im Schrank von {element} sind {value}; {model} verträgt dort {limit}"),
    (
        "address-out-of-range",
        "{element} hätte die Nummer {number} im Feld {field}, aber die Gerätefamilie hat {first} bis {last}",
    ),
    (
        "address-reserved",
        "{element} hat die Nummer {number} im Feld {field}, die sich die Anlage selbst vorbehält",
    ),
    ("address-duplicate", "{element} hat im Feld {field} dieselbe Nummer {number} wie {other}"),
    (
        "address-not-expressible",
        "{element} hat die Nummer {number} im Feld {field}, aber seine Schalter enden bei {highest}",
    ),
    ("two-main-entrances", "{element} und {other} wollen beide der Haupteingang sein (Nummer {number})"),
    (
        "extension-without-room",
        "{element}: Die Wohnung hat {stations:Station|Stationen}, die Gerätefamilie kann {room} nummerieren",
    ),
    ("too-many-buildings", "Die Anlage hat {buildings} Gebäude, die Gerätefamilie kann {room} nummerieren"),
    (
        "addresses-exhausted",
        "Für {element} ist im Feld {field} keine Nummer mehr frei: {first} bis {last} sind vergeben",
    ),
];
