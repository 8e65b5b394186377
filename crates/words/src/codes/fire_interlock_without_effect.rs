//! `fire-interlock-without-effect`

code! {
    "fire-interlock-without-effect"
    title: "A fire interlock that releases nothing" | "Eine Brandfallsteuerung, die nichts freigibt",
    short: "interlock no use" | "Brandfall wirkungslos",
    message:
        "the fire interlock of {element} does not release its locks: {locks}"
        | "Die Brandfallsteuerung von {element} gibt keines der Schlösser frei: {locks}",
    hint:
        "wire it so that it cuts the power of a lock that opens without"
        | "so verdrahten, dass sie den Strom eines Schlosses unterbricht, das ohne Strom öffnet",
    measure:
        "With those who look after the fire alarm, whether the door opens while it is in alarm."
        | "Mit denen, die die Brandmeldeanlage betreuen, ob die Tür während des Alarms aufgeht.",
    english:
        /// # What it checks
        /// Entrances with a fire interlock, none of whose locks opens without power.
        ///
        /// # Why it matters
        /// The interlock cuts the lock's supply. A fail-secure lock then stays shut: the interlock does
        /// nothing, and people count on it.
        ///
        /// # Example
        /// A fail-secure strike with `fire_interlock = true`.
        ///
        /// # What to do
        /// A lock that opens without power, or another means of escape and no interlock in the plan.
    german:
        /// # Was geprüft wird
        /// Eingänge mit Brandfallsteuerung, von deren Schlössern keines ohne Strom öffnet.
        ///
        /// # Warum es zählt
        /// Die Steuerung unterbricht die Speisung des Schlosses. Ein Schloss nach dem Arbeitsstromprinzip bleibt
        /// dann zu: Die Steuerung tut nichts, und man verlässt sich auf sie.
        ///
        /// # Beispiel
        /// Ein Türöffner, der ohne Strom zu bleibt, mit `fire_interlock = true`.
        ///
        /// # Was zu tun ist
        /// Ein Schloss, das ohne Strom öffnet, oder eine andere Fluchtmöglichkeit und keine Steuerung im Plan.
}
