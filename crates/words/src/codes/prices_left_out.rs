//! `prices-left-out`

code! {
    "prices-left-out"
    title: "Prices in another currency are left out" | "Preise in einer anderen Währung sind weggelassen",
    message:
        "{value:part of this site has|parts of this site have} a price in {listed} and none in {currency}, which is left out of all sums"
        | "{value:Teil dieser Anlage hat|Teile dieser Anlage haben} einen Preis in {listed} und keinen in {currency}: er fehlt in allen Summen",
    label: "<{parts}>" | "<{parts}>",
    hint:
        "state the rate in the catalogue that gives the currency, or prices of your own"
        | "den Kurs in dem Katalog angeben, der die Währung nennt, oder eigene Preise",
    english:
        /// # What it checks
        /// Catalogue files that state different currencies. The last one gives that of all figures. A price of another
        /// list is brought into it at the rate that its file states under `rates`; without one it is left out.
        ///
        /// # Why it matters
        /// A price in one currency under the sign of another is wrong by the whole difference, and looks right.
        ///
        /// # Example
        /// Your list is in GBP and the built-in parts are in EUR: with `rates.EUR.worth = 0.86` in your list they are
        /// counted at 0.86 of their figure, without it not at all.
        ///
        /// # What to do
        /// State the rate, or put prices of your own in the place of those.
    german:
        /// # Was geprüft wird
        /// Katalogdateien, die verschiedene Währungen angeben. Die letzte gibt die aller Zahlen. Ein Preis aus einer
        /// anderen Liste wird mit dem Kurs umgerechnet, den ihre Datei unter `rates` angibt; ohne Kurs fehlt er.
        ///
        /// # Warum es zählt
        /// Ein Preis in einer Währung unter dem Zeichen einer anderen ist um den ganzen Unterschied falsch und sieht
        /// richtig aus.
        ///
        /// # Beispiel
        /// Die eigene Liste ist in GBP, die eingebauten Teile in EUR: mit `rates.EUR.worth = 0.86` in der eigenen Liste
        /// zählen sie mit 0,86 ihrer Zahl, ohne gar nicht.
        ///
        /// # Was zu tun ist
        /// Den Kurs angeben, oder eigene Preise an die Stelle jener setzen.
}
