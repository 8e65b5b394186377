//! `start-up-dropouts`

code! {
    "start-up-dropouts"
    title: "Devices drop out before all are up" | "Geräte fallen aus, bevor alle laufen",
    short: "drops out at start-up" | "Ausfälle beim Anlauf",
    message:
        "when power returns at {element}, everything is up after {time}, but not without interruption<: something drops out {dropouts:time|times}><; the supply or a port switches off {trips:time|times}>"
        | "kehrt das Netz an {element} wieder, so läuft nach {time} alles, aber nicht ohne Ausfälle<: {dropouts} Mal fällt etwas aus><; {trips} Mal schaltet das Netzteil oder ein Abgang ab>",
    label:
        "<{most} drops out {most_dropouts:time|times}>" | "<{most} fällt {most_dropouts} Mal aus>",
    hint:
        "fewer stations at once: delays that differ from run to run, a larger supply, thicker conductors"
        | "weniger Stationen zugleich: von Strang zu Strang verschiedene Verzögerungen, ein größeres Netzteil, dickere Adern",
    measure:
        "The lowest voltage at the last station of the longest run during the first half minute after switching on; listen for relays that click."
        | "Die kleinste Spannung an der letzten Station des längsten Strangs in der ersten halben Minute nach dem Einschalten; auf klickende Relais hören.",
    english:
        /// # What it checks
        /// Where power return ends with everything up: how often a converter started and dropped out before, and how often
        /// the supply or a port switched off.
        ///
        /// # Why it matters
        /// A station that starts and drops out dozens of times flashes, clicks and wears, and one that is a little hungrier than its
        /// data sheet never gets out of it. That it ends well in the calculation is no more than luck.
        ///
        /// # Example
        /// Twelve stations behind a thin feeder drop out 38 times in all before the last is up after 9 s.
        ///
        /// # What to do
        /// Let runs start one after the other, take a supply with more current, or thicker conductors.
    german:
        /// # Was geprüft wird
        /// Wo die Netzwiederkehr damit endet, dass alles läuft: wie oft vorher ein Wandler anlief und ausfiel, und wie oft
        /// Netzteil oder Abgang abschalteten.
        ///
        /// # Warum es zählt
        /// Eine Station, die Dutzende Male anläuft und ausfällt, blinkt, klickt und verschleißt, und eine, die etwas hungriger ist als ihr
        /// Datenblatt, kommt nie heraus. Dass es in der Rechnung gut endet, ist nicht mehr als Glück.
        ///
        /// # Beispiel
        /// Zwölf Stationen hinter einer dünnen Zuleitung fallen zusammen 38 Mal aus, bevor die letzte nach 9 s läuft.
        ///
        /// # Was zu tun ist
        /// Stränge nacheinander anlaufen lassen, ein Netzteil mit mehr Strom nehmen, oder dickere Adern.
}
