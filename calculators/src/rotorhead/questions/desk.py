"""Questions for a page: put, marked, dealt out for a sheet. JSON data in and out; the door calls these."""

from collections.abc import Mapping
from typing import Any

from ..faults import refuse
from ..render import sources_html, steps_html
from ..run import HeadChoice, head_choice, rotor_of, without_idle_changes
from ..units import QUANTITIES, System
from . import marking, papers
from .bank import BELIEFS, TEMPLATES, TOPICS
from .model import Amount, Bearing, Template

Request = Mapping[str, Any]
Reply = dict[str, Any]


def described(template: Template) -> Reply:
    """A template as a list of them shows it."""
    return {
        "template": template.id,
        "topic": template.topic,
        "level": template.level,
        "tests": template.tests,
        "kind": template.kind,
        "calculators": list(template.calculators),
    }


def catalogue() -> Reply:
    """Topics and templates: what a page can offer before anything is computed."""
    return {
        "topics": [{"id": name, "title": title, "page": page} for name, (title, page) in TOPICS.items()],
        "templates": [described(one) for one in TEMPLATES.values()],
    }


def _head(data: Request, system: System) -> tuple[HeadChoice, Any]:
    choice = without_idle_changes(head_choice(data.get("head", {})), system)
    return choice, rotor_of(choice, system)


def _put(data: Request, system: System) -> marking.Put:
    choice, rotor = _head(data, system)
    seed = papers.checked_seed(str(data.get("seed", "")))
    return marking.put(str(data.get("template")), seed, rotor, choice.label, system)


def ask(data: Request, system: System) -> Reply:
    """A question as it is put: prompt, kind, what there is to choose or to order, the drawing; with `key` its answer too."""
    asked = _put(data, system)
    question = asked.question
    answer = question.answer
    return {
        **described(asked.template),
        "topic_title": TOPICS[asked.template.topic][0],
        "prompt": question.prompt,
        "unit": QUANTITIES[answer.quantity].unit(system).symbol if isinstance(answer, Amount) else "",
        "options": [option.text for option in asked.options],
        "items": list(asked.items),
        "drawing": question.drawing,
        "head": {"label": asked.setting.label},
        **({"answer": marking.answer_text(asked), "why": question.why} if data.get("key") is True else {}),
    }


def mark(data: Request, system: System) -> Reply:
    """An answer judged: right or not, why, the belief behind it, the working, the sources and the way to the calculator."""
    asked = _put(data, system)
    given = data.get("given")
    if not isinstance(given, str):
        raise refuse(marking.FIELD, "An answer is a text.")
    verdict = marking.judge(asked, given[:200])
    solved, answer = asked.question.solved, asked.question.answer
    return {
        "template": asked.template.id,
        "right": verdict.right,
        "said": verdict.said,
        "belief": verdict.belief.id if verdict.belief else "",
        "answer": marking.answer_text(asked),
        "right_given": marking.right_answer(asked),
        "degrees": float(marking.right_answer(asked)) if isinstance(answer, Bearing) else None,
        "working": steps_html(solved.calculator, solved.steps or solved.calculator.working(solved.case)),
        "sources": sources_html(solved.sources or solved.calculator.sources),
        "calculator": solved.calculator.id,
        "title": solved.calculator.title,
        "page": solved.calculator.page,
        "inputs": dict(solved.inputs),
        "topic_page": TOPICS[asked.template.topic][1],
        "topic_title": TOPICS[asked.template.topic][0],
    }


def paper(data: Request, _: System) -> Reply:
    """The questions of a sheet, chosen by topics, number and seed: names and seeds, the same for the same words."""
    topics = data.get("topics")
    number = data.get("number")
    if not isinstance(topics, list) or not all(isinstance(topic, str) for topic in topics):
        raise refuse("topics", "Topics: a list of their names is needed.")
    if not isinstance(number, int) or isinstance(number, bool):
        raise refuse("number", "Number of questions: a whole number is needed.")
    chosen = papers.choose(topics, number, str(data.get("seed", "")))
    return {"questions": [{**described(template), "seed": seed} for template, seed in chosen]}


def beliefs() -> list[Reply]:
    """Every named belief, for the instructor's page."""
    return [
        {"id": b.id, "said": b.said, "so": b.so, "show": b.show, "calculator": b.calculator, "page": b.page}
        for b in BELIEFS.values()
    ]
