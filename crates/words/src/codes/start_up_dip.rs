//! `start-up-dip`

code! {
    "start-up-dip"
    title: "The voltage dips at stations that had come up" | "Die Spannung bricht an Stationen ein, die schon liefen",
    short: "dips at start-up" | "Einbruch beim Anlauf",
    message:
        "{element} has come up and then dips to {value} while others boot; it needs {limit}"
        | "{element} ist schon an und fällt auf {value}, während andere anlaufen; nötig sind {limit}",
    label: "<on {source}>" | "<an {source}>",
    hint:
        "thicker conductors, fewer stations on the run, or delays that differ from run to run"
        | "dickere Adern, weniger Stationen am Strang, oder von Strang zu Strang verschiedene Verzögerungen",
    measure:
        "At that station, with a meter that holds the lowest value, the voltage during the first half minute after switching on."
        | "An dieser Station mit einem Messgerät, das den kleinsten Wert hält, die Spannung in der ersten halben Minute nach dem Einschalten.",
    english:
        /// # What it checks
        /// Where power return ends well, the lowest voltage at every station from when it had come up, while others
        /// were still booting, against its least standby voltage.
        ///
        /// # Why it matters
        /// A station that has come up and sees its voltage dip restarts, or comes up with a setting lost. It happens only after a
        /// power cut, and nobody is there to see it.
        ///
        /// # Example
        /// A-504 was up after 4 s and then saw 32.8 V when the door station started; it needs 34 V.
        ///
        /// # What to do
        /// Thicker conductors or fewer stations on the run; delays that differ from run to run.
    german:
        /// # Was geprüft wird
        /// Wo die Netzwiederkehr gut endet: die kleinste Spannung an jeder Station von dem Zeitpunkt an, zu dem sie
        /// hochgefahren war, während andere noch starteten, gegen ihre kleinste Ruhespannung.
        ///
        /// # Warum es zählt
        /// Eine Station, die hochgefahren ist und deren Spannung einbricht, startet neu oder kommt mit einer
        /// verlorenen Einstellung hoch. Es geschieht nur nach einem Stromausfall, und niemand ist da, der es sieht.
        ///
        /// # Beispiel
        /// A-504 war nach 4 s oben und sah dann 32,8 V, als die Türstation startete; sie braucht 34 V.
        ///
        /// # Was zu tun ist
        /// Dickere Adern oder weniger Stationen am Strang; Verzögerungen, die von Strang zu Strang verschieden
        /// sind.
}
