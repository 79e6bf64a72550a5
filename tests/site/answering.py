"""Answering the questions of a page in the browser."""

from __future__ import annotations

from playwright.sync_api import Page

# Presses what a hand would press, and only where a hand would reach it; all at one go, as a
# message to the browser for each press takes far longer than the press.
ANSWER_ALL = """() => {
  const press = node => {
    node.scrollIntoView({block: 'center', behavior: 'instant'});
    const box = node.getBoundingClientRect();
    const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    if (!top || !node.contains(top)) throw new Error('out of reach: ' + node.outerHTML);
    node.click();
  };
  const forms = kind => [...document.querySelectorAll(`form[data-question=${kind}]`)]
    .filter(form => !form.closest('.sw-gaps[hidden]'));
  const check = form => {
    press(form.querySelector('button[type=submit]'));
    return form.querySelector('[role=status]').innerText;
  };
  return {
    typed: forms('typed').map(form => {
      press(form.querySelector('.sw-answer summary'));
      const box = form.querySelector('input[type=text]');
      press(box);
      box.value = form.querySelector('.sw-answer .sw-n').innerText;
      return [box.value, check(form)];
    }),
    choice: forms('choice').map(form => [...form.querySelectorAll('input[type=radio]')].map(
      option => { press(option); return check(form); })),
    ranking: forms('ranking').map(form => {
      const rows = [...form.querySelectorAll('.sw-rank')];
      const give = place => rows.forEach((row, at) =>
        press(row.querySelector(`input[value="${place(Number(row.dataset.place), at)}"]`)));
      const tied = rows.every(row => row.dataset.place === '1');
      give((right, at) => tied && !at ? 2 : 1);
      const wrong = check(form);
      give(right => right);
      return [wrong, check(form)];
    }),
    pick: forms('pick').map(form => {
      const boxes = [...form.querySelectorAll('input[type=checkbox]')];
      boxes.filter(box => box.hasAttribute('data-right')).forEach(press);
      const right = check(form);
      press(boxes[boxes.length - 1]);
      press(boxes[0]);
      return [check(form), right];
    }),
    order: forms('order').map(form => {
      const wrong = check(form);
      const rows = () => [...form.querySelectorAll('.sw-order > li')];
      rows().forEach((_, place) => {
        const row = rows().find(one => one.dataset.row === String(place));
        while (rows().indexOf(row) > place) press(row.querySelector('[data-move="-1"]'));
      });
      return [wrong, check(form)];
    }),
    faulty: forms('faulty-line').map(form => {
      const replies = [...form.querySelectorAll('input[type=radio]')].map(
        line => { press(line); return [line.dataset.state === 'fault', check(form)]; });
      const right = replies.filter(([fault, _]) => fault)[0][1];
      const wrong = replies.filter(([fault, _]) => !fault).map(([_, reply]) => reply);
      return [wrong.find(reply => reply.startsWith('Right.')) || wrong[0], right];
    }),
  };
}"""


def open_first_step(page: Page) -> None:
    """Open the first step of a solution, and wait until that is noted as a beginning.

    The event that tells of an opened step comes a moment later than the step opens, and a page
    that is left at once never gets it.
    """
    page.locator("details.sw-step summary").first.click()
    page.wait_for_function(
        "Object.keys(localStorage).some(key => key.startsWith('stepwell:progress:'))"
    )


def answer_every_question(page: Page) -> int:
    """Type each shown answer, choose each option, rank, pick and order; see that replies fit.

    Returns:
        How many questions the page has.
    """
    told = page.evaluate(ANSWER_ALL)
    for shown, reply in told["typed"]:
        assert shown.strip()
        assert "Right." in reply, (page.url, shown)
    for replies in told["choice"]:
        assert len(replies) >= 2
        assert sum(reply.startswith("Right.") for reply in replies) == 1, (page.url, replies)
    pairs = [pair for kind in ("ranking", "pick", "order", "faulty") for pair in told[kind]]
    for wrong, right in pairs:
        assert not wrong.startswith("Right."), (page.url, wrong)
        assert right.startswith("Right."), (page.url, right)
    return sum(len(forms) for forms in told.values())
