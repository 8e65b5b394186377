//! `port-overloaded`

code! {
    "port-overloaded"
    title: "More current than a port gives" | "Mehr Strom, als ein Abgang gibt",
    short: "port overloaded" | "Abgang überlastet",
    message:
        "port {element} must give {value} but gives at most {limit}, {state}"
        | "Abgang {element} muss {value} geben und gibt höchstens {limit} ({state})",
    label: "<{stations:station|stations} beyond>" | "<{stations:Station|Stationen} dahinter>",
    hint: "<{way_out}>" | "<{way_out}>",
    measure:
        "The current out of that port, the meter in series with one leg of its run, in standby and with calls on it. What is more than predicted in standby is a short in the making or a device too many."
        | "Den Strom aus diesem Abgang, das Messgerät in Reihe mit einer Ader seines Strangs, in Ruhe und mit Rufen daran. Ist er schon in Ruhe höher als vorausgesagt, ist es ein beginnender Kurzschluss oder ein Gerät zu viel.",
    english:
        /// # What it checks
        /// The largest current out of each port that has a limit of its own, over all operating states and
        /// admissible sets of calls.
        ///
        /// # Why it matters
        /// A port at its limit starves its whole run while the rest of the building works, and it does
        /// so only in the busiest moment.
        ///
        /// # Example
        /// Port A-D1.3 is asked for 0.95 A when two calls stand on its run; it gives 0.8 A.
        ///
        /// # What to do
        /// Move stations to a free port or another distributor.
    german:
        /// # Was geprüft wird
        /// Den größten Strom aus jedem Abgang mit eigener Begrenzung, über alle Betriebszustände und zulässigen
        /// Mengen von Rufen.
        ///
        /// # Warum es zählt
        /// Ein Abgang an seiner Grenze lässt seinen ganzen Strang verhungern, während das übrige Haus arbeitet, und
        /// nur im vollsten Augenblick.
        ///
        /// # Beispiel
        /// Vom Abgang A-D1.3 werden 0,95 A verlangt, wenn an seinem Strang zwei Rufe stehen; er gibt 0,8 A.
        ///
        /// # Was zu tun ist
        /// Stationen auf einen freien Abgang oder einen anderen Verteiler verlegen.
}
