//! `lock-given-twice`

code! {
    "lock-given-twice"
    title: "Both `lock` and `locks` are given" | "`lock` und `locks` sind beide angegeben",
    message: "{name} has both \"lock\" and \"locks\"" | "{name} hat sowohl „lock“ als auch „locks“",
    hint: "keep one of the two" | "eines von beiden behalten",
    english:
        /// Two ways to say the same thing would leave the order of the locks open, and the order decides which output opens which lock.
        ///
        /// Use `lock` for one lock, or `locks` for a list of them.
    german:
        /// Zwei Arten, dasselbe zu sagen, ließen die Reihenfolge der Schlösser offen, und die entscheidet, welcher Ausgang welches Schloss öffnet.
        ///
        /// `lock` für ein Schloss, oder `locks` für eine Liste.
}
