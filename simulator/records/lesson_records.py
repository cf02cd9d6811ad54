"""Answers given in lessons: added, read back, never changed."""

import time
from dataclasses import dataclass

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.database import Database


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """One answer as it stands.

    Parameters
    ----------
    lesson, part, question : str
        Which.
    answer : str
        As given.
    is_right : bool
        As judged then.
    """

    lesson: str
    part: str
    question: str
    answer: str
    is_right: bool


class LessonRecords(Database):
    """All answers in one database file."""

    def add(self, trainee: str, answered: Answered) -> None:
        """Keep an answer.

        Parameters
        ----------
        trainee : str
            The browser's own name.
        answered : Answered
            What was answered.
        """
        with self.writing() as connection:
            connection.execute(
                insert(schema.lesson_answers).values(
                    trainee=trainee,
                    lesson=answered.lesson,
                    part=answered.part,
                    question=answered.question,
                    answer=answered.answer,
                    is_right=int(answered.is_right),
                    given_at=time.time(),
                )
            )

    def newest(self, trainee: str) -> list[Answered]:
        """The last answer to each question.

        Parameters
        ----------
        trainee : str
            The browser's own name.

        Returns
        -------
        list
            In no order that matters.
        """
        table = schema.lesson_answers
        with self.reading() as connection:
            rows = connection.execute(
                select(table).where(table.c.trainee == trainee).order_by(table.c.id)
            ).all()
        found = {
            (row.lesson, row.part, row.question): Answered(
                lesson=row.lesson,
                part=row.part,
                question=row.question,
                answer=row.answer,
                is_right=bool(row.is_right),
            )
            for row in rows
        }
        return list(found.values())
