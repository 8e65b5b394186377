//! `light-feed-unsuitable`

code! {
    "light-feed-unsuitable"
    title: "A light for another voltage" | "Eine Leuchte für eine andere Spannung",
    short: "wrong feed of a light" | "Leuchte falsch gespeist",
    message:
        "the light {light} of {element} is made for {limit}<, {needs},> and gets {value}"
        | "Die Leuchte {light} von {element} ist für {limit}<, {needs},> gebaut und bekommt {value}",
    hint:
        "take a light for that voltage, or another feed"
        | "eine Leuchte für diese Spannung nehmen, oder eine andere Speisung",
    english:
        /// # What it checks
        /// The rated voltage of every light that hangs on a door station or on the bus, with its tolerance, against
        /// the nominal voltage there; and that a light for alternating current only hangs on neither, since both are
        /// direct current. Lights on a supply of their own are left to whoever chooses it.
        ///
        /// # Why it matters
        /// A 12 V light on a bus of 48 V burns out, and may take the bus down as it does; a 24 V light on 12 V stays
        /// dark.
        ///
        /// # Example
        /// A porch light of 12 V with `feed = "bus"` on a bus of 48 V.
        ///
        /// # What to do
        /// Take a light for that voltage, or another feed.
    german:
        /// # Was geprüft wird
        /// Die Nennspannung jeder Leuchte an einer Türstation oder am Bus, mit ihrer Toleranz, gegen die
        /// Nennspannung dort; und dass eine Leuchte nur für Wechselstrom an keinem von beiden hängt, da beide
        /// Gleichstrom sind. Leuchten an eigenem Netzteil bleiben dem überlassen, der es wählt.
        ///
        /// # Warum es zählt
        /// Eine 12-V-Leuchte an einem Bus mit 48 V brennt durch und reißt den Bus vielleicht mit; eine 24-V-Leuchte
        /// an 12 V bleibt dunkel.
        ///
        /// # Beispiel
        /// Eine Außenleuchte für 12 V mit `feed = "bus"` an einem Bus mit 48 V.
        ///
        /// # Was zu tun ist
        /// Eine Leuchte für diese Spannung nehmen, oder eine andere Speisung.
}
