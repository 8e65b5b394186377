//! The symptoms.

use super::Symptom;

/// Every symptom, in the order in which they are offered where two are as near.
pub(super) static ALL: &[Symptom] = &[
    Symptom {
        title: ["A station restarts when it is called", "Eine Station startet neu, wenn sie gerufen wird"],
        told: [
            &[
                "restarts when called",
                "last screen restarts when called",
                "restarts when it rings",
                "reboots on a call",
                "resets when somebody rings",
                "screen goes black when it rings",
                "picture comes and then it restarts",
            ],
            &[
                "startet neu wenn sie gerufen wird",
                "startet beim klingeln neu",
                "stürzt bei ruf ab",
                "startet bei ruf neu",
            ],
        ],
        measure: [
            "The voltage at that station's terminals in standby, and again while it rings. If it falls below what the model needs, go back along the run, station by station, and find where it falls most: a joint shows as one large step.",
            "Die Spannung an den Klemmen dieser Station in Ruhe und noch einmal, während sie klingelt. Fällt sie unter das, was das Modell braucht, am Strang Station für Station zurückgehen und suchen, wo am meisten verloren geht: Eine schlechte Klemme zeigt sich als ein großer Schritt.",
        ],
        codes: &[
            "voltage-too-low",
            "thin-margin",
            "load-falls-in-use",
            "port-overloaded",
            "supply-overloaded",
            "trip-below-legitimate-current",
        ],
    },
    Symptom {
        title: ["It rings, but there is no speech", "Es klingelt, aber es gibt keine Sprache"],
        told: [
            &[
                "rings but no speech",
                "no speech",
                "no sound",
                "no audio",
                "cannot hear",
                "cannot hear the visitor",
                "visitor does not hear",
                "speech is faint",
                "speech too quiet",
            ],
            &["klingelt aber keine sprache", "keine sprache", "kein ton", "hört nichts", "sprache zu leise"],
        ],
        measure: [
            "Ask whether every station or one has no speech, and in which direction. One: its handset, then its two pairs at the terminals. All: the door station's microphone and speaker. Then the voltage while it talks.",
            "Fragen, ob an jeder Station oder an einer, und in welcher Richtung. An einer: ihr Hörer, dann die Adern an ihren Klemmen. An allen: Mikrofon und Lautsprecher der Türstation. Dann die Spannung im Gespräch.",
        ],
        codes: &["signal-too-weak", "supply-shorts-signal", "terminator-missing", "voltage-too-low"],
    },
    Symptom {
        title: ["One station is dead", "Eine Station ist tot"],
        told: [
            &[
                "station dead",
                "dead",
                "screen dark",
                "one screen is dark",
                "black screen",
                "handset is dead",
                "one flat is dead",
                "monitor does not light up",
                "no power at one station",
            ],
            &["station tot", "tot", "bildschirm dunkel", "bildschirm bleibt schwarz", "eine wohnung ist tot"],
        ],
        measure: [
            "The voltage at its terminals in standby. Right there: the station itself, or its plug. None: the terminals of the station before it on the run, and the cable between. Below zero: its two conductors are exchanged.",
            "Die Spannung an ihren Klemmen in Ruhe. Stimmt sie: die Station selbst oder ihr Stecker. Keine: die Klemmen der Station davor am Strang und die Leitung dazwischen. Unter null: die beiden Adern sind vertauscht.",
        ],
        codes: &["voltage-too-low", "silenced-group", "chain-through-dwellings", "start-up-fails"],
    },
    Symptom {
        title: [
            "A picture or light flickers, or comes and goes",
            "Bild oder Licht flackert, oder kommt und geht",
        ],
        told: [
            &[
                "flickers",
                "picture flickers",
                "screen flickers",
                "lights flicker",
                "comes and goes",
                "works sometimes",
                "intermittent",
                "drops out now and then",
            ],
            &["flackert", "bild flackert", "kommt und geht", "geht nur manchmal", "wackelkontakt"],
        ],
        measure: [
            "The voltage at its terminals while somebody moves the conductors in their terminals, one after the other, there and at the stop before. A voltage that jumps is a joint; one that dips only with a call is load.",
            "Die Spannung an ihren Klemmen, während jemand die Adern in ihren Klemmen bewegt, eine nach der anderen, dort und am Halt davor. Springt sie, ist es eine Klemme; sinkt sie nur bei Ruf, ist es Last.",
        ],
        codes: &[
            "thin-margin",
            "voltage-too-low",
            "start-up-hiccups",
            "signal-too-weak",
            "terminator-missing",
        ],
    },
    Symptom {
        title: ["A magnet does not let go", "Ein Haftmagnet lässt nicht los"],
        told: [
            &[
                "magnet does not let go",
                "magnet does not release",
                "magnet holds",
                "magnet stays on",
                "door held shut",
                "fire alarm does not open the door",
                "magnet does not let go on fire alarm",
            ],
            &[
                "magnet lässt nicht los",
                "magnet hält",
                "haftmagnet gibt nicht frei",
                "brandmeldung öffnet die tür nicht",
            ],
        ],
        measure: [
            "Get people out by another way first. Then the voltage at the magnet's own terminals while it is released: if there is still voltage, something feeds it past the contact: a contact wired normally open, a fire contact that is not in its circuit, a second feed. If there is none: residual magnetism, or a suppressor the wrong way round.",
            "Zuerst einen anderen Weg hinaus sichern. Dann die Spannung an den Klemmen des Magneten während der Freigabe: Liegt noch Spannung an, speist ihn etwas am Kontakt vorbei: ein als Schließer verdrahteter Kontakt, ein Brandkontakt außerhalb seines Kreises, eine zweite Speisung. Ist keine da: Restmagnetismus oder eine verkehrte Schutzbeschaltung.",
        ],
        codes: &[
            "fire-interlock-without-effect",
            "fire-interlock-missing",
            "lock-contact-wiring",
            "escape-depends-on-bus",
            "fire-release-through-station",
            "exit-button-missing",
            "suppression-unsuitable",
        ],
    },
    Symptom {
        title: ["Can the old cable stay?", "Kann die alte Leitung bleiben?"],
        told: [
            &[
                "old cable",
                "can the old cable stay",
                "reuse the old cable",
                "existing cable",
                "existing wiring",
                "keep the bell wire",
                "old bell wire in the wall",
            ],
            &["alte leitung", "kann die alte leitung bleiben", "vorhandene leitung", "alter klingeldraht"],
        ],
        measure: [
            "With everything taken off it: the loop resistance with the far end bridged, the capacitance with it open, the insulation between the legs and of each to earth. State the run with `existing = true` and what was measured; check then says of each old run whether it can stay. Without a site: latchline reach --total METRES --cable \"bell wire\" says how many stations so much of it carries.",
            "Alles abgeklemmt: den Schleifenwiderstand bei gebrücktem fernem Ende, die Kapazität bei offenem, die Isolation der Adern gegeneinander und gegen Erde. Den Strang mit `existing = true` und den Messwerten angeben; check sagt dann von jedem alten Strang, ob er bleiben kann. Ohne Anlage: latchline reach --total METER --cable \"bell wire\" sagt, wie viele Stationen so viel davon trägt.",
        ],
        codes: &[
            "existing-run-not-measured",
            "measured-loop-differs",
            "insulation-too-low",
            "voltage-too-low",
            "signal-too-weak",
            "run-too-long",
            "cable-unsuitable",
        ],
    },
    Symptom {
        title: ["A station restarts when the door opens", "Eine Station startet neu, wenn die Tür öffnet"],
        told: [
            &[
                "restarts when the door opens",
                "restarts on release",
                "reboots when the door opens",
                "reboots on release",
                "resets when lock releases",
                "screen goes black when the door opens",
            ],
            &["startet neu wenn die tür öffnet", "startet beim öffnen neu", "stürzt beim öffnen ab"],
        ],
        measure: [
            "The voltage at that station's terminals in standby, and again while the door is held released. If it falls below what the model needs, go back along the run and find where it falls most.",
            "Die Spannung an den Klemmen dieser Station in Ruhe und noch einmal, während die Tür freigegeben ist. Fällt sie unter das, was das Modell braucht, am Strang zurückgehen und suchen, wo am meisten verloren geht.",
        ],
        codes: &[
            "voltage-too-low",
            "thin-margin",
            "supply-overloaded",
            "port-overloaded",
            "trip-below-legitimate-current",
            "start-up-dip",
        ],
    },
    Symptom {
        title: ["There is no picture, or a poor one", "Kein Bild oder ein schlechtes"],
        told: [
            &[
                "no picture",
                "no video",
                "picture is poor",
                "snow on the screen",
                "picture missing but speech works",
                "ghost picture",
            ],
            &["kein bild", "schlechtes bild", "kein video"],
        ],
        measure: [
            "With the power off, count the terminators of that chain: one, on its last station. Then the loop resistance of the run with the far end bridged, and its capacitance with the far end open; both are on the commissioning sheet.",
            "Spannungsfrei die Abschlüsse dieser Kette zählen: einer, an der letzten Station. Dann den Schleifenwiderstand des Strangs bei gebrücktem fernem Ende und seine Kapazität bei offenem; beide stehen auf dem Inbetriebnahmeblatt.",
        ],
        codes: &[
            "signal-too-weak",
            "terminator-missing",
            "terminator-doubled",
            "terminator-misplaced",
            "signal-notch",
            "signal-ripple",
            "supply-shorts-signal",
            "line-constants-missing",
        ],
    },
    Symptom {
        title: ["Two stations ring, or the wrong one", "Zwei Stationen läuten, oder die falsche"],
        told: [
            &[
                "rings twice",
                "two flats ring",
                "wrong flat rings",
                "wrong station rings",
                "neighbour rings",
                "both ring",
            ],
            &[
                "läutet doppelt",
                "zwei wohnungen läuten",
                "falsche wohnung läutet",
                "es klingelt beim nachbarn",
                "klingelt doppelt",
            ],
        ],
        measure: [
            "Nothing yet: read the switches of both stations, and hold the list of devices that the system itself finds against the plan: latchline addresses SITE --found LIST.",
            "Noch nichts: die Schalter beider Stationen ablesen und die Liste der Geräte, die das System selbst findet, gegen den Plan halten: latchline addresses SITE --found LISTE.",
        ],
        codes: &[
            "address-duplicate",
            "address-reserved",
            "address-not-expressible",
            "two-main-entrances",
            "extension-without-room",
        ],
    },
    Symptom {
        title: [
            "A station does not ring or cannot be called",
            "Eine Station läutet nicht oder ist nicht erreichbar",
        ],
        told: [
            &[
                "does not ring",
                "no ring",
                "cannot be called",
                "flat is not found",
                "station missing",
                "not found",
            ],
            &["läutet nicht", "klingelt nicht", "nicht erreichbar", "station fehlt", "wird nicht gefunden"],
        ],
        measure: [
            "The voltage at its terminals in standby. With voltage there, its switches; without, the terminals of the station before it on the run.",
            "Die Spannung an ihren Klemmen in Ruhe. Ist Spannung da, ihre Schalter; wenn nicht, die Klemmen der Station davor am Strang.",
        ],
        codes: &[
            "address-duplicate",
            "dwelling-without-entrance",
            "entrance-calls-nobody",
            "call-across-buses",
            "voltage-too-low",
            "silenced-group",
        ],
    },
    Symptom {
        title: ["A lock does not release", "Ein Schloss öffnet nicht"],
        told: [
            &[
                "lock does not release",
                "door does not open",
                "lock clicks but does not open",
                "strike does not work",
                "lock buzzes",
                "strike only buzzes and does not open",
                "gate does not open",
                "lock is weak",
            ],
            &[
                "schloss öffnet nicht",
                "tür geht nicht auf",
                "türöffner summt nur",
                "schloss ist schwach",
                "tor öffnet nicht",
            ],
        ],
        measure: [
            "The voltage at the lock's own terminals while it is released, with the lock connected. Right there and the lock stays shut: the lock. Too low: its cable and joints, then what feeds it. None: the relay contact.",
            "Die Spannung an den Klemmen des Schlosses während der Freigabe, mit angeschlossenem Schloss. Stimmt sie und es öffnet nicht: das Schloss. Zu niedrig: seine Leitung und Klemmstellen, dann die Speisung. Keine: der Relaiskontakt.",
        ],
        codes: &[
            "lock-voltage-too-low",
            "lock-feed-missing",
            "lock-current-kind",
            "lock-contact-wiring",
            "lock-output-overloaded",
            "relay-overloaded",
            "lock-outputs-exceeded",
        ],
    },
    Symptom {
        title: [
            "A door stays open, or opens for too short or too long",
            "Eine Tür bleibt offen oder öffnet zu kurz oder zu lang",
        ],
        told: [
            &[
                "door stays open",
                "lock stays released",
                "opens too short",
                "opens too long",
                "door does not lock",
            ],
            &["tür bleibt offen", "öffnet zu kurz", "öffnet zu lang", "tür schließt nicht"],
        ],
        measure: [
            "Whether there is voltage at the lock in standby, and for how many seconds after a release. A lock that opens without power needs voltage in standby; one that stays shut needs none.",
            "Ob in Ruhe Spannung am Schloss liegt, und für wie viele Sekunden nach einer Freigabe. Ein Schloss, das ohne Strom öffnet, braucht in Ruhe Spannung; eines, das geschlossen bleibt, keine.",
        ],
        codes: &[
            "lock-contact-wiring",
            "hold-time-overridden",
            "lock-duty-exceeded",
            "suppression-missing",
            "suppression-unsuitable",
        ],
    },
    Symptom {
        title: ["Everything is dark", "Alles ist dunkel"],
        told: [
            &[
                "nothing works",
                "everything is dark",
                "all dead",
                "whole building dead",
                "supply clicks",
                "supply goes on and off",
                "system keeps restarting",
            ],
            &[
                "nichts geht",
                "alles dunkel",
                "alles tot",
                "netzteil taktet",
                "anlage startet immer wieder neu",
            ],
        ],
        measure: [
            "The output of the supply with all runs taken off. If it stands, put the runs back one by one and read the current each time; the one with which it drops has the short or is too much.",
            "Den Ausgang des Netzteils, alle Stränge abgeklemmt. Steht die Spannung, die Stränge einzeln anklemmen und jedes Mal den Strom lesen; der, mit dem sie fällt, hat den Kurzschluss oder ist zu viel.",
        ],
        codes: &[
            "no-operating-point",
            "supply-overloaded",
            "trip-below-legitimate-current",
            "start-up-hiccups",
            "start-up-fails",
            "short-circuit-darkens",
        ],
    },
    Symptom {
        title: ["A floor or a riser is dark", "Ein Geschoss oder eine Steigleitung ist dunkel"],
        told: [
            &[
                "floor is dark",
                "whole floor dead",
                "riser is dead",
                "several flats dead",
                "all on one run are missing",
            ],
            &["stockwerk ist dunkel", "etage tot", "steigleitung tot", "mehrere wohnungen tot"],
        ],
        measure: [
            "The voltage at the port of that run, then at its first station. Voltage at the port and none at the first station: the cable between them.",
            "Die Spannung am Abgang dieses Strangs, dann an seiner ersten Station. Am Abgang da und an der ersten Station nicht: die Leitung dazwischen.",
        ],
        codes: &[
            "silenced-group",
            "port-overloaded",
            "short-circuit-not-detected",
            "short-circuit-darkens",
            "chain-through-dwellings",
        ],
    },
    Symptom {
        title: ["It does not come up after a power cut", "Nach einem Stromausfall kommt es nicht wieder"],
        told: [
            &[
                "does not come up after a power cut",
                "does not start after power failure",
                "does not start",
                "stays off after power returns",
            ],
            &["kommt nach stromausfall nicht wieder", "startet nicht", "bleibt nach stromausfall aus"],
        ],
        measure: [
            "The voltage at the supply while everything boots. If it collapses and returns again and again, take half of the runs off and switch on; then add them.",
            "Die Spannung am Netzteil, während alles hochläuft. Bricht sie immer wieder zusammen, die Hälfte der Stränge abklemmen und einschalten; dann dazunehmen.",
        ],
        codes: &[
            "start-up-fails",
            "start-up-hiccups",
            "start-up-dip",
            "supply-overloaded",
            "charger-too-small",
        ],
    },
    Symptom {
        title: ["The battery does not last", "Die Batterie hält nicht"],
        told: [
            &["battery does not last", "battery empty", "dies during a power cut", "battery too short"],
            &["batterie hält nicht", "batterie leer", "fällt bei stromausfall aus"],
        ],
        measure: [
            "The current drawn from the battery in standby with mains off, and the battery's voltage under that load after an hour.",
            "Den Strom aus der Batterie in Ruhe ohne Netz, und die Spannung der Batterie unter dieser Last nach einer Stunde.",
        ],
        codes: &["battery-hours-short", "charger-too-small", "battery-end-voltage-low", "supply-too-hot"],
    },
    Symptom {
        title: [
            "It works by day and fails at night or in the cold",
            "Bei Tag geht es, bei Nacht oder Kälte nicht",
        ],
        told: [
            &["fails at night", "works by day", "fails in the cold", "only in winter", "lights dim at night"],
            &["nachts fällt es aus", "nur im winter", "bei kälte fällt es aus"],
        ],
        measure: [
            "The current of the door station by day and with its lights and heater on, and the voltage at the last station of its supply meanwhile.",
            "Den Strom der Türstation bei Tag und mit Beleuchtung und Heizung, und dabei die Spannung an der letzten Station ihres Netzteils.",
        ],
        codes: &[
            "voltage-too-low",
            "supply-overloaded",
            "light-output-overloaded",
            "heater-missing",
            "battery-hours-short",
        ],
    },
    Symptom {
        title: ["There is hum or noise", "Es brummt oder rauscht"],
        told: [
            &[
                "hum",
                "hums",
                "hum on the line",
                "buzzing noise in the handset",
                "noise",
                "whistles",
                "crackles",
            ],
            &["brummt", "rauscht", "pfeift", "knistert"],
        ],
        measure: [
            "The insulation of each leg to earth and to the other, electronics disconnected; then follow the run where it lies beside mains.",
            "Die Isolation jeder Ader gegen Erde und gegen die andere, Elektronik abgeklemmt; dann dem Strang dort folgen, wo er neben Netzleitungen liegt.",
        ],
        codes: &[
            "beside-mains",
            "insulation-too-low",
            "signal-too-weak",
            "terminator-missing",
            "supply-shorts-signal",
        ],
    },
    Symptom {
        title: ["A supply or cable gets hot", "Ein Netzteil oder eine Leitung wird heiß"],
        told: [
            &["supply gets hot", "cable gets warm", "burning smell", "cupboard is hot"],
            &["netzteil wird heiß", "leitung wird warm", "es riecht verbrannt", "schrank ist heiß"],
        ],
        measure: [
            "Switch off first. Then the resistance of each run alone with its far end open: a run that is not open has a short.",
            "Zuerst abschalten. Dann den Widerstand jedes Strangs für sich bei offenem fernem Ende: Einer, der nicht offen ist, hat einen Kurzschluss.",
        ],
        codes: &[
            "short-circuit-not-cleared",
            "short-circuit-not-detected",
            "supply-too-hot",
            "supply-overloaded",
            "lock-duty-exceeded",
        ],
    },
];
