//! Answers given on the telephone, kept as a record that can be found again.

use crate::StoreError;
use crate::database::Value;
use crate::revision::{Number, Signed, SiteId};
use crate::rows::head_number;
use crate::store::{Store, check_signed};
use crate::submission::{LONGEST_ID, LONGEST_NAME};
use crate::texts::check_words;
use latchline_words::refusals::{KeptThing, NotKept, UnfitWords};

/// Signs of the longest question, answer, or list of assumptions.
pub const LONGEST_ANSWER: usize = 20_000;
/// Most words that are looked for at once.
const MOST_WORDS: usize = 8;

/// What was asked and what was answered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Answer {
    /// Made by the client, used once: keeping it again changes nothing.
    pub id: String,
    /// The site that it is about, if it is about one.
    pub site: Option<SiteId>,
    /// Who asked.
    pub asked_by: String,
    /// The question, with its figures.
    pub question: String,
    /// The answer as it was said.
    pub answer: String,
    /// What was assumed for it.
    pub assumptions: String,
    /// The catalogue that it rests on, by name and hash.
    pub catalogue: String,
    /// When, by whom, with which engine; client and note are not kept.
    pub signed: Signed,
}

impl Answer {
    /// All words of it, by which it is found.
    fn sought(&self) -> String {
        let parts = [
            &self.asked_by,
            &self.question,
            &self.answer,
            &self.assumptions,
            &self.catalogue,
            &self.signed.by,
        ];
        parts.map(|part| part.to_lowercase()).join("\n")
    }
}

impl Store {
    /// Keeps an answer; its number, by which it is linked to. An id that is known gives its first number.
    ///
    /// # Errors
    /// If the id is known with other words, there is no such site, something cannot be kept, or the store cannot be written.
    pub fn keep_answer(&self, answer: &Answer) -> Result<Number, StoreError> {
        if answer.id.is_empty() {
            return Err(StoreError::unfit(&UnfitWords::Empty { what: KeptThing::AnswerId }));
        }
        check_words(KeptThing::AnswerId, &answer.id, LONGEST_ID)?;
        check_words(KeptThing::Asker, &answer.asked_by, LONGEST_NAME)?;
        check_words(KeptThing::Question, &answer.question, LONGEST_ANSWER)?;
        check_words(KeptThing::Answer, &answer.answer, LONGEST_ANSWER)?;
        check_words(KeptThing::Assumptions, &answer.assumptions, LONGEST_ANSWER)?;
        check_words(KeptThing::Catalogue, &answer.catalogue, LONGEST_ANSWER)?;
        check_signed(&answer.signed)?;
        self.write(|statements| {
            let sql = "select number, sought from answer where id = $1";
            if let Some(row) = statements.row(sql, &[answer.id.as_str().into()])? {
                if row.text(1) != answer.sought() {
                    return Err(StoreError::IdReused(
                        latchline_finding::shown::name(&answer.id).into_owned(),
                    ));
                }
                return Ok(Number(row.integer(0)));
            }
            if let Some(site) = answer.site {
                head_number(statements, site)?;
            }
            let next = statements.row("select last + 1 from answer_numbers", &[])?;
            let number = Number(next.map_or(1, |row| row.integer(0)));
            statements.run("update answer_numbers set last = $1", &[number.0.into()])?;
            statements.run(
                "insert into answer (id, number, site, at_ms, by_whom, engine, asked_by, question, answer,
                 assumptions, catalogue, sought) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
                &[
                    answer.id.as_str().into(),
                    number.0.into(),
                    answer.site.map(|site| site.0).into(),
                    answer.signed.at_ms.into(),
                    answer.signed.by.as_str().into(),
                    answer.signed.engine.as_str().into(),
                    answer.asked_by.as_str().into(),
                    answer.question.as_str().into(),
                    answer.answer.as_str().into(),
                    answer.assumptions.as_str().into(),
                    answer.catalogue.as_str().into(),
                    answer.sought().into(),
                ],
            )?;
            Ok(number)
        })
    }

    /// Answers that hold every one of these words, the newest first, below a number if one is given; at most so many. Without words, all.
    ///
    /// # Errors
    /// If they cannot be read.
    pub fn find_answers(
        &self,
        words: &str,
        below: Option<Number>,
        most: usize,
    ) -> Result<Vec<(Number, Answer)>, StoreError> {
        let below = below.map_or(i64::MAX, |number| number.0);
        let mut values: Vec<Value> = vec![below.into(), (most as i64).into()];
        let mut sql = String::from(
            "select number, id, site, at_ms, by_whom, engine, asked_by, question, answer, assumptions, catalogue
             from answer where number < $1",
        );
        for word in words.to_lowercase().split_whitespace().take(MOST_WORDS) {
            let word = word.replace('\0', "").replace('\\', "\\\\").replace('%', "\\%").replace('_', "\\_");
            values.push(format!("%{word}%").into());
            sql.push_str(&format!(" and sought like ${} escape '\\'", values.len()));
        }
        sql.push_str(" order by number desc limit $2");
        self.read(|statements| {
            let rows = statements.rows(&sql, &values)?;
            let answers = rows.iter().map(|row| {
                let signed = Signed {
                    at_ms: row.integer(3),
                    by: row.text(4),
                    engine: row.text(5),
                    ..Signed::default()
                };
                let answer = Answer {
                    id: row.text(1),
                    site: row.optional(2).map(SiteId),
                    asked_by: row.text(6),
                    question: row.text(7),
                    answer: row.text(8),
                    assumptions: row.text(9),
                    catalogue: row.text(10),
                    signed,
                };
                (Number(row.integer(0)), answer)
            });
            Ok(answers.collect())
        })
    }

    /// Deletes an answer with all that it says; its number is not given again.
    ///
    /// # Errors
    /// If there is none, or the store cannot be written.
    pub fn delete_answer(&self, number: Number) -> Result<(), StoreError> {
        self.write(|statements| {
            match statements.run("delete from answer where number = $1", &[number.0.into()])? {
                0 => Err(StoreError::not_there(&NotKept::Answer { number: &number.0.to_string() })),
                _ => Ok(()),
            }
        })
    }

    /// The answer with a number.
    ///
    /// # Errors
    /// If there is none.
    pub fn answer(&self, number: Number) -> Result<Answer, StoreError> {
        let found = self.find_answers("", Some(Number(number.0.saturating_add(1))), 1)?;
        let found = found.into_iter().find(|(found, _)| *found == number).map(|(_, answer)| answer);
        found.ok_or_else(|| StoreError::not_there(&NotKept::Answer { number: &number.0.to_string() }))
    }
}
