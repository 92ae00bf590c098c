import { Button } from 'react-aria-components/Button';
import { Dialog, DialogTrigger } from 'react-aria-components/Dialog';
import { Heading } from 'react-aria-components/Heading';
import { Modal, ModalOverlay } from 'react-aria-components/Modal';
import { say } from '../../wording/say.ts';

interface AskOnceProps {
  /** On the button that begins it, and on the one that does it. */
  readonly act: string;
  /** Which of several it is about, for those who do not see the line it stands in. */
  readonly about: string;
  /** What will be lost, as a question. */
  readonly question: string;
  readonly onYes: () => unknown;
}

/** Something that cannot be undone asks once, says what will be lost, and keeps the focus until it is answered. */
export function AskOnce({ act, about, question, onYes }: AskOnceProps) {
  return (
    <DialogTrigger>
      <Button className="button" data-kind="quiet">
        {act}
        <span className="unseen">: {about}</span>
      </Button>
      <ModalOverlay className="veil" isDismissable>
        <Modal className="asked">
          <Dialog role="alertdialog">
            {({ close }) => (
              <>
                <Heading slot="title">{act}</Heading>
                <p>{question}</p>
                <div className="actions">
                  <Button className="button" autoFocus onPress={close}>
                    {say('web.cancel')}
                  </Button>
                  <Button
                    className="button"
                    data-kind="act"
                    onPress={() => {
                      close();
                      onYes();
                    }}
                  >
                    {act}
                  </Button>
                </div>
              </>
            )}
          </Dialog>
        </Modal>
      </ModalOverlay>
    </DialogTrigger>
  );
}
