//! Why a request is not answered as asked.
//!
//! Who refuses need not know the reader's language: the guard, which sees every request and every answer, says it in it.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use latchline_finding::{Both, Language};
use latchline_words::office::OfficeRefusal;

/// Why not.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Refused {
    /// There is no such thing.
    NotFound,
    /// Asked in a way that nobody on a page of ours can: the reason is for who looks at the connection.
    Forbidden(OfficeRefusal<'static>),
    /// What was sent makes no sense.
    Unfit(Both),
    /// The same, worded in the reader's language already.
    Said(String),
    /// It does not go together with what others did.
    Conflict(Both),
    /// Too much at once.
    Busy(OfficeRefusal<'static>),
    /// Our own mistake.
    Broken(OfficeRefusal<'static>),
}

impl Refused {
    /// In both languages.
    pub fn both(&self) -> Both {
        match self {
            Refused::NotFound => OfficeRefusal::NotFound.both(),
            Refused::Forbidden(why) | Refused::Busy(why) | Refused::Broken(why) => why.both(),
            Refused::Unfit(why) | Refused::Conflict(why) => why.clone(),
            Refused::Said(why) => Both::same(why.clone()),
        }
    }

    fn status(&self) -> StatusCode {
        match self {
            Refused::NotFound => StatusCode::NOT_FOUND,
            Refused::Forbidden(_) => StatusCode::FORBIDDEN,
            Refused::Unfit(_) | Refused::Said(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Refused::Conflict(_) => StatusCode::CONFLICT,
            Refused::Busy(_) => StatusCode::TOO_MANY_REQUESTS,
            Refused::Broken(_) => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    /// The answer in a language.
    pub fn answer(&self, language: Language) -> Response {
        (self.status(), String::from(self.both().of(language))).into_response()
    }
}

impl IntoResponse for Refused {
    /// The answer in English, which carries why, so that the guard can say it in the reader's language.
    fn into_response(self) -> Response {
        let mut answer = self.answer(Language::English);
        answer.extensions_mut().insert(self);
        answer
    }
}

/// An answer, what it refuses being said in a language.
pub(crate) fn in_language(mut answer: Response, language: Language) -> Response {
    match answer.extensions_mut().remove::<Refused>() {
        Some(refused) => refused.answer(language),
        None => answer,
    }
}
