//! `silenced-group`

code! {
    "silenced-group"
    title: "One fault silences many dwellings" | "Ein Fehler legt viele Wohnungen still",
    short: "one fault, many silent" | "ein Fehler, viele stumm",
    message:
        "one broken joint on run {element} silences {value} dwellings<; the policy allows {policy}><; more than {usual} are many (no policy is stated)>"
        | "Eine lose Verbindung am Strang {element} legt {value} Wohnungen still<; die Vorgabe ist höchstens {policy}><; mehr als {usual} sind viele, auch ohne Vorgabe>",
    label: "<all beyond {first_stop}>" | "<alles hinter {first_stop}>",
    hint:
        "<taking out station {removed_station} alone silences {removal_silences:dwelling|dwellings}; >shorter chains on more ports"
        | "<allein Station {removed_station} herauszunehmen legt {removal_silences:Wohnung|Wohnungen} still; >kürzere Ketten an mehr Abgängen",
    measure:
        "The voltage at the first station that is dark and at the last one that works: the break lies between the two."
        | "Die Spannung an der ersten dunklen und an der letzten Station, die geht: Die Unterbrechung liegt zwischen beiden.",
    english:
        /// # What it checks
        /// How many dwellings fall silent together when one joint of a chain breaks, or when one station is taken
        /// out through which the chain passes (`loop_through = "series"`). Of each port the worst place is told:
        /// the first section. A dwelling counts if all its stations are beyond the break.
        ///
        /// The limit is `largest_silenced_group` under `[policy]`: more than that is an error. Without a policy, more
        /// than 8 are a piece of advice (common practice, no source). Counted is up to the next distributor: what
        /// the feed of a distributor carries, every system loses with that feed.
        ///
        /// # Why it matters
        /// One decorator who disconnects a station, or one screw that works loose, and the whole stack complains.
        /// With a star it is one flat, and it is the flat that knows why.
        ///
        /// # Example
        /// A-R1 loops through ten flats; a loose screw in the first one silences all ten.
        ///
        /// # What to do
        /// Shorter chains on more ports, branch boxes on the landings, or stations that are bridged on the terminal
        /// block.
    german:
        /// # Was geprüft wird
        /// Wie viele Wohnungen zusammen verstummen, wenn eine Verbindung einer Kette bricht oder eine Station
        /// herausgenommen wird, durch die die Kette läuft (`loop_through = "series"`). Von jedem Abgang wird die
        /// schlimmste Stelle genannt: der erste Abschnitt. Eine Wohnung zählt, wenn alle ihre Stationen hinter dem
        /// Bruch liegen.
        ///
        /// Die Grenze ist `largest_silenced_group` unter `[policy]`: mehr ist ein Fehler. Ohne Vorgabe sind mehr
        /// als 8 ein Hinweis (üblich, keine Quelle). Gezählt wird bis zum nächsten Verteiler: Was dessen Speisung
        /// trägt, verliert jede Anlage mit dieser Speisung.
        ///
        /// # Warum es zählt
        /// Ein Maler, der eine Station abklemmt, oder eine Schraube, die sich löst, und das ganze Treppenhaus
        /// beschwert sich. Bei einem Stern ist es eine Wohnung, und zwar die, die weiß, warum.
        ///
        /// # Beispiel
        /// A-R1 schleift durch zehn Wohnungen; eine lose Schraube in der ersten bringt alle zehn zum Schweigen.
        ///
        /// # Was zu tun ist
        /// Kürzere Ketten an mehr Abgängen, Abzweigdosen auf den Podesten, oder Stationen, die auf der Klemmleiste
        /// gebrückt sind.
}
